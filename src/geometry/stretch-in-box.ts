import type { Extents } from './extents.ts';
import type { Vec2 } from './vec2.ts';

/**
 * The shares of a straight line between which it runs through a box, edges included; `undefined`
 * where it misses the box (Liang and Barsky 1984).
 */
export function stretchInBox(
  { minX, minY, maxX, maxY }: Extents,
  a: Vec2,
  b: Vec2,
): readonly [enter: number, leave: number] | undefined {
  let [enter, leave] = [0, 1];
  for (const [start, end, low, high] of [
    [a[0], b[0], minX, maxX],
    [a[1], b[1], minY, maxY],
  ] as const) {
    if (start === end) {
      if (start < low || start > high) return undefined;
      continue;
    }
    const [near, far] = [(low - start) / (end - start), (high - start) / (end - start)];
    [enter, leave] = [Math.max(enter, Math.min(near, far)), Math.min(leave, Math.max(near, far))];
  }
  return enter <= leave ? [enter, leave] : undefined;
}
