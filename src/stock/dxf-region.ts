import { unlessRefused } from '../dxf/read/refusal.ts';
import type { Region } from '../geometry/region.ts';
import { crossingFindings } from '../inspect/contour-findings.ts';
import { readDrawing } from '../inspect/drawing.ts';
import { cutLinesOf } from '../inspect/lines.ts';
import { nestingOf } from '../inspect/nesting.ts';
import { openFindings } from '../inspect/open-findings.ts';
import { placesFrom } from '../inspect/places.ts';
import { doublesOf } from '../inspect/shared-edges.ts';
import type { Finding } from '../model/finding.ts';

/** Outline and holes as a file draws them, or why it has none, and the mend. */
export type DxfRegion =
  | { readonly ok: true; readonly region: Region }
  | { readonly ok: false; readonly why: string; readonly mend: string };

/** Curves as arcs, and loose ends that were meant to meet, as `inspect` takes them, mm. */
const JOINING = { errorMm: 0.01, gapMm: 1 };

/**
 * The one outline that a DXF file of any program draws, with the holes in it, mm, where the file
 * has it. Folds, axes and marks are passed over; lines that close nothing, or cross, are not.
 */
export const regionOfDxf = (bytes: Uint8Array): DxfRegion => {
  const read = unlessRefused(() => ({ ok: true as const, ...seen(bytes) }));
  if (!read.ok) return { ok: false, why: read.reason, mend: read.mend };
  const { stops, contours } = read;
  const [stop] = stops;
  if (stop !== undefined)
    return {
      ok: false,
      why: stop.message.replace(/\.$/, ''),
      mend: 'blankwright inspect shows where',
    };
  const [outline, ...others] = contours.filter(({ depth }) => depth === 0);
  if (outline === undefined)
    return {
      ok: false,
      why: 'it draws no closed outline',
      mend: 'draw the outline as a closed line',
    };
  if (others.length > 0)
    return {
      ok: false,
      why: `it draws ${others.length + 1} outlines beside each other`,
      mend: 'one file for each remnant',
    };
  if (contours.some(({ depth }) => depth > 1))
    return {
      ok: false,
      why: 'it draws something inside a hole',
      mend: 'leave out what lies there',
    };
  const holes = contours.flatMap(({ depth, loop }) => (depth === 1 ? [loop] : []));
  return { ok: true, region: { outline: outline.loop, holes } };
};

const seen = (bytes: Uint8Array) => {
  const drawing = readDrawing(bytes, undefined);
  const lines = cutLinesOf(drawing.strokes, JOINING);
  const nested = nestingOf(lines.closed);
  const place = placesFrom(drawing.origin);
  const findings: readonly Finding[] = [
    ...crossingFindings(lines, doublesOf(lines), nested, place),
    ...openFindings(lines, place),
  ];
  return {
    stops: findings.filter(({ severity }) => severity === 'stop'),
    contours: nested.contours,
  };
};
