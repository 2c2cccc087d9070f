import { cosDeg, sinDeg } from '../../geometry/degrees.ts';
import type { Extents } from '../../geometry/extents.ts';
import type { Vec2 } from '../../geometry/vec2.ts';

/**
 * A rectangle round some points and their ways when they turn about the origin, not always tight:
 * it goes round the ends of each way and is widened by the height of its arc over its chord.
 */
export function sweptBox(points: readonly Vec2[], turnDeg: number): Extents {
  const [c, s, rise] = [cosDeg(turnDeg), sinDeg(turnDeg), 1 - cosDeg(turnDeg / 2)];
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    const wider = rise * Math.sqrt(x * x + y * y);
    const [endX, endY] = [c * x - s * y, s * x + c * y];
    minX = Math.min(minX, x - wider, endX - wider);
    maxX = Math.max(maxX, x + wider, endX + wider);
    minY = Math.min(minY, y - wider, endY - wider);
    maxY = Math.max(maxY, y + wider, endY + wider);
  }
  return { minX, minY, maxX, maxY };
}

const boxes = new WeakMap<readonly Vec2[], Extents>();

/** The rectangle round a polygon, kept because it is asked for many times. */
const boxOf = (polygon: readonly Vec2[]): Extents => {
  const known = boxes.get(polygon);
  if (known !== undefined) return known;
  const made = sweptBox(polygon, 0);
  boxes.set(polygon, made);
  return made;
};

/** Whether points that turn about the origin may meet a polygon that rises by up to `riseMm`. */
export const mayMeet = (
  turning: readonly Vec2[],
  polygon: readonly Vec2[],
  turnDeg: number,
  riseMm = 0,
): boolean => {
  const [a, b] = [lastSwept(turning, turnDeg), boxOf(polygon)];
  return a.minX <= b.maxX && b.minX <= a.maxX && a.minY <= b.maxY + riseMm && b.minY <= a.maxY;
};

let last:
  | { readonly turning: readonly Vec2[]; readonly turnDeg: number; readonly box: Extents }
  | undefined;

/** The box of a polygon's way, kept while it is compared with one body after another. */
const lastSwept = (turning: readonly Vec2[], turnDeg: number): Extents => {
  if (last?.turning !== turning || last.turnDeg !== turnDeg)
    last = { turning, turnDeg, box: sweptBox(turning, turnDeg) };
  return last.box;
};
