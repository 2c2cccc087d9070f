import { figure } from '../figures.ts';
import { withChords } from '../geometry/chords.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { Drawing, DrawingItem, Role } from '../model/drawing.ts';
import { LAYERS } from '../write/layers.ts';
import type { CutPiece } from './contours.ts';
import { printable } from './decode.ts';
import type { Oddity } from './explode.ts';
import type { Inspected } from './inspect.ts';
import { counted } from './listed.ts';

/**
 * The drawing of a mended copy, mm: gaps closed, nothing twice, blocks taken apart, curves as arcs. What is closed lies
 * on the layers for outlines and holes, what is open on that for cuts, or for marks where its layer holds nothing closed; what folds or marks in files of ours stays so.
 */
export const mendedDrawing = ({ lines, nested }: Inspected, errorMm: number, title: string, mark: string): Drawing => {
  const closed = nested.contours.map(({ loop, depth }): DrawingItem => ({ kind: 'loop', role: depth % 2 === 0 ? 'outline' : 'hole', loop }));
  const straight = (role: Role, piece: CutPiece): DrawingItem[] => chordsOf(piece, errorMm).map(([from, to]) => ({ kind: 'line', role, from, to }));
  const cutLayers = new Set(nested.contours.flatMap(({ chain }) => chain.pieces.map((p) => p.layer)));
  const open = lines.meant.filter((c) => !c.closed).flatMap((c) => c.pieces.flatMap((p) => straight(cutLayers.has(p.layer) ? 'cut' : 'mark', p)));
  return { title, mark, items: [...closed, ...open, ...lines.marks.flatMap((p) => straight(markRole(p.layer), p))] };
};

/** A file of ours holds arcs in closed lines only. */
const chordsOf = ({ from, to, bulge }: CutPiece, errorMm: number): (readonly [Vec2, Vec2])[] => {
  const points = withChords([{ x: from[0], y: from[1], bulge }, { x: to[0], y: to[1], bulge: 0 }], errorMm).map(({ x, y }): Vec2 => [x, y]);
  return points.slice(1).map((point, i) => [points[i] as Vec2, point]);
};

const markRole = (layer: string): Role => LAYERS.find(({ name }) => name === layer.toUpperCase())?.role ?? 'mark';

/** Every way in which the mended copy differs from the file, a line each. */
export const changesOf = ({ drawing, lines }: Inspected, errorMm: number): string[] => {
  const place = ([x, y]: readonly [number, number]): string => `(${figure(x)}, ${figure(y)})`;
  const arcs = [...lines.meant.filter((c) => !c.closed).flatMap((c) => c.pieces), ...lines.marks].filter((p) => p.bulge !== 0).length;
  return [
    ...lines.gaps.map(({ at, sizeMm }) => `Joined a gap of ${figure(sizeMm, 3)} mm at ${place(at)}.`),
    ...lines.meetings.doubled.map(({ at, lengthMm }) => `Removed ${figure(lengthMm, 3)} mm that lay on another line, at ${place(at)}.`),
    ...lines.empty.map(({ from }) => `Removed a line of no length at ${place(from)}.`),
    ...drawing.oddities.map(oddityChange),
    ...curveChanges(drawing.strokes, errorMm),
    ...(arcs === 0 ? [] : [`Wrote ${counted(arcs, 'arc')} of lines that close no contour as straight lines within ${figure(errorMm, 4)} mm.`]),
    ...(drawing.unit.mm === 1 ? [] : [`Wrote millimetres in place of ${drawing.unit.name}.`]),
    'Put outlines, holes and other cuts on layers of their own; open lines of layers without closed contours on the layer for marks.',
  ];
};

const oddityChange = ({ type, layer, why, count, detail }: Oddity): string => {
  const what = `${count} ${printable(type)} on layer '${printable(layer)}'`;
  if (why === 'block') return `Took block '${printable(detail ?? '')}' apart, put in ${counted(count, 'time')} on layer '${printable(layer)}'.`;
  if (why === 'not flat' || why === 'above the sheet') return `Laid ${what} flat at height 0.`;
  return why === 'wide' ? `Took the width of ${what} away.` : `Left out ${what}.`;
};

const curveChanges = (strokes: Inspected['drawing']['strokes'], errorMm: number): string[] => {
  const types = new Map<string, Set<number>>();
  for (const { type, entity, primitive } of strokes) {
    if (primitive.kind === 'piece') continue;
    const known = types.get(type);
    if (known === undefined) types.set(type, new Set([entity]));
    else known.add(entity);
  }
  return [...types].map(([type, entities]) => `Turned ${entities.size} ${printable(type)} into arcs within ${figure(errorMm, 4)} mm.`);
};
