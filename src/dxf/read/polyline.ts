import type { Vec2 } from '../../geometry/vec2.ts';
import type { Primitive } from './primitive.ts';
import { type DxfRecord, numberAt, toNumber } from './records.ts';
import { type Drawn, lines, lying, piece, RISE, spread } from './lying.ts';

interface PolyVertex {
  readonly at: Vec2;
  readonly bulge: number;
}

/** Whether a polyline has a width: group 43 of the whole, or 40 and 41 of one of its sides. */
export const isWide = ({ codes, values }: DxfRecord): boolean =>
  codes.some(
    (code, i) => (code === 43 || code === 40 || code === 41) && toNumber(values[i] ?? '') > 0,
  );

/**
 * The pieces of a light polyline. Each corner begins with its x, and the bulge that follows belongs
 * to it.
 */
export const lightPolyline = (r: DxfRecord): Primitive[] => {
  const corners: { at: [number, number]; bulge: number }[] = [];
  let last: (typeof corners)[number] | undefined;
  for (let i = 0; i < r.codes.length; i++) {
    const code = r.codes[i];
    if (code !== 10 && code !== 20 && code !== 42) continue;
    const value = toNumber(r.values[i] ?? '');
    if (code === 10) corners.push((last = { at: [value, 0], bulge: 0 }));
    else if (last !== undefined && code === 20) last.at[1] = value;
    else if (last !== undefined) last.bulge = value;
  }
  return joined(corners, isClosed(r));
};

const isClosed = (r: DxfRecord): boolean => (numberAt(r, 70) & 1) === 1;

const joined = (vertices: readonly PolyVertex[], closes: boolean): Primitive[] => {
  const pieces: Primitive[] = [];
  for (let i = 0; i < vertices.length; i++) {
    const v = vertices[i] as PolyVertex;
    const next = vertices[i + 1] ?? (closes ? vertices[0] : undefined);
    if (next !== undefined && (v.at[0] !== next.at[0] || v.at[1] !== next.at[1]))
      pieces.push(piece(v.at, next.at, v.bulge));
  }
  return pieces;
};

/**
 * The pieces of a heavy polyline. Bits of its group 70: 1 closed, 4 with a spline's frame, 8 in
 * space, 16 a mesh of rows, 64 a mesh of faces; bit 16 on a vertex marks a point of the frame.
 */
export const heavyPolyline = (r: DxfRecord, records: readonly DxfRecord[]): Drawn => {
  const flags = numberAt(r, 70);
  if ((flags & 80) !== 0) return { kind: 'none' };
  const shown = records.filter((v) => (numberAt(v, 70) & 16) === 0);
  const primitives = joined(
    shown.map((v) => ({
      at: [numberAt(v, 10), numberAt(v, 20)],
      bulge: (flags & 8) === 0 ? numberAt(v, 42) : 0,
    })),
    isClosed(r),
  );
  if ((flags & 8) === 0)
    return lying(
      r,
      primitives,
      numberAt(r, 30),
      records.some((v) => numberAt(v, 40) > 0 || numberAt(v, 41) > 0) || numberAt(r, 40) > 0,
    );
  const heights = shown.map((v) => numberAt(v, 30));
  if (heights.length === 0) return lines([]);
  const [low, high] = spread(heights);
  return lines(
    primitives,
    high - low > RISE && 'not flat',
    high - low <= RISE && Math.abs(low) > RISE && 'above the sheet',
  );
};
