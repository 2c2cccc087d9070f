import { figure } from '../text/figures.ts';
import { withChords } from '../geometry/chords.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { Drawing, DrawingItem, Role } from '../model/drawing.ts';
import { type Finding, stop } from '../model/finding.ts';
import { writeDxf } from '../dxf/write/dxf.ts';
import { LAYERS } from '../dxf/write/layers.ts';
import { layerKey } from '../dxf/read/layers.ts';
import { type Inspected, inspectDxf, type InspectOptions } from './inspect.ts';
import { changesOf } from './mend-changes.ts';
import type { CutPiece } from './understand.ts';

/**
 * A mended copy with every way in which it differs from the file, or what keeps it from being one.
 */
export type Mended =
  | { readonly ok: true; readonly text: string; readonly changes: readonly string[] }
  | { readonly ok: false; readonly stops: readonly Finding[] };

/** Rules whose findings a copy mends. Anything else that stops a file is left to its maker. */
const MENDED = new Set(['gap']);
/** A finding that stops a file for one cutter says nothing against the file. */
const OF_CUTTER = new Set(['larger-than-bed']);

/**
 * The mended copy of a file, if it is one: an inspection of the copy must find nothing that stops
 * it, and the copy must have the parts, the holes and the metal of the file.
 */
export const mendedCopy = (
  found: Inspected,
  options: InspectOptions,
  title: string,
  mark: string,
): Mended => {
  const own = found.inspection.findings.filter(
    (f) => f.severity === 'stop' && !MENDED.has(f.rule) && !OF_CUTTER.has(f.rule),
  );
  if (own.length > 0) return { ok: false, stops: own };
  const text = writeDxf(mendedDrawing(found, options.errorMm, title, mark), {
    version: 'r2000',
    cutOnly: false,
  });
  const copy = inspectDxf(new TextEncoder().encode(text), { ...options, units: undefined });
  if (!copy.ok)
    return {
      ok: false,
      stops: [stop('unreadable', `The copy cannot be looked at: ${copy.reason}.`)],
    };
  const left = copy.inspection.findings.filter(
    (f) => f.severity === 'stop' && !OF_CUTTER.has(f.rule),
  );
  const stops = [...left, ...differences(found, copy)];
  return stops.length > 0
    ? { ok: false, stops }
    : { ok: true, text, changes: changesOf(found, options.errorMm) };
};

const differences = (
  { inspection: file, lines }: Inspected,
  { inspection: copy }: Inspected,
): Finding[] => {
  const told = ({ contours: { parts, holes }, areaMm2 }: Inspected['inspection']): string =>
    `${parts} parts, ${holes} holes, ${figure(areaMm2)} mm2`;
  // Ends move by half a gap, and everything else by the error that a file may have.
  const off = 0.01 + lines.gaps.reduce((most, g) => Math.max(most, g.sizeMm), 0);
  const isSame =
    file.contours.parts === copy.contours.parts &&
    file.contours.holes === copy.contours.holes &&
    Math.abs(file.areaMm2 - copy.areaMm2) <= off * (1 + file.cutLengthMm);
  return isSame
    ? []
    : [
        stop(
          'copy-differs',
          `A copy would not be the same: ${told(copy)} instead of ${told(file)}.`,
        ),
      ];
};

/**
 * The drawing of a mended copy, mm: gaps closed, nothing twice, blocks taken apart, curves as arcs.
 * Contours lie on the layers for outlines and holes, lines that were meant for folds or axes on the
 * layer for marks, and other open lines on the layer for cuts. Folds and marks in files of ours
 * stay what they are. An edge that two contours share belongs to both.
 */
const mendedDrawing = (
  { lines, nested: { contours, twins } }: Inspected,
  errorMm: number,
  title: string,
  mark: string,
): Drawing => {
  const roleOf = (depth: number): Role => (depth % 2 === 0 ? 'outline' : 'hole');
  const depths = new Map(contours.map(({ chain, depth }) => [chain, depth]));
  const closed = [
    ...contours,
    ...twins.map((t) => ({ loop: t.loop, depth: depths.get(t.of.chain) ?? 0 })),
  ].map(({ loop, depth }): DrawingItem => ({ kind: 'loop', role: roleOf(depth), loop }));
  const straight = (role: Role, piece: CutPiece): DrawingItem[] =>
    chordsOf(piece, errorMm).map(([from, to]) => ({ kind: 'line', role, from, to }));
  return {
    title,
    mark,
    items: [
      ...closed,
      ...lines.open.flat().flatMap((p) => straight('cut', p)),
      ...lines.strays.flat().flatMap((p) => straight('mark', p)),
      ...lines.marks.flatMap((p) => straight(markRole(p.layer), p)),
    ],
  };
};

/** A file of ours has arcs in closed lines only, so an open arc becomes straight lines. */
const chordsOf = ({ from, to, bulge }: CutPiece, errorMm: number): (readonly [Vec2, Vec2])[] => {
  const points = withChords(
    [
      { x: from[0], y: from[1], bulge },
      { x: to[0], y: to[1], bulge: 0 },
    ],
    errorMm,
  ).map(({ x, y }): Vec2 => [x, y]);
  return points.slice(1).map((point, i) => [points[i] as Vec2, point]);
};

const markRole = (layer: string): Role =>
  LAYERS.find(({ name }) => name === layerKey(layer))?.role ?? 'mark';
