import { type Extents, loopExtents } from './extents.ts';
import { loopGap } from './gap.ts';
import { isInside } from './inside.ts';
import type { Loop } from './loop.ts';
import { moveLoop, shift } from './motion2.ts';
import { NOISE_MM, SETTLED_MM } from './tolerance.ts';
import type { Vec2 } from './vec2.ts';

/** Number of steps in which a slide is searched; a room narrower than one step may be missed. */
const STEPS = 400;
/**
 * How far a loop may slide along a direction and still lie wholly inside all of `within`: the
 * stretch that begins nearest to its present place, mm along the unit vector `towards`; `undefined`
 * where there is none.
 */
export function slideRoom(
  loop: Loop,
  within: readonly Loop[],
  towards: Vec2,
): readonly [from: number, to: number] | undefined {
  const [own, ...others] = [loop, ...within].map(loopExtents);
  const fits = (by: number): boolean => {
    const [x, y] = [by * towards[0], by * towards[1]];
    return (
      others.every((other) => isBoxIn(own, other, x, y)) &&
      liesIn(moveLoop(shift(x, y), loop), within)
    );
  };
  const far = reach([loop, ...within]);
  const step = (2 * far) / STEPS;
  const places = Array.from({ length: STEPS + 1 }, (_, i) => -far + i * step);
  const start = places.toSorted((a, b) => Math.abs(a) - Math.abs(b)).find(fits);
  if (start === undefined) return undefined;
  const end = (sign: 1 | -1): number => {
    let at = start;
    while (Math.abs(at) <= far && fits(at + sign * step)) at += sign * step;
    let [good, bad] = [at, at + sign * step];
    while (Math.abs(bad - good) > SETTLED_MM) {
      const middle = (good + bad) / 2;
      if (fits(middle)) good = middle;
      else bad = middle;
    }
    return good;
  };
  return [end(-1), end(1)];
}

/** Whether a box that is shifted lies in another: a quick no for most places. */
const isBoxIn = (
  own: Extents | undefined,
  other: Extents | undefined,
  x: number,
  y: number,
): boolean =>
  own !== undefined &&
  other !== undefined &&
  own.minX + x >= other.minX &&
  own.maxX + x <= other.maxX &&
  own.minY + y >= other.minY &&
  own.maxY + y <= other.maxY;

/** Whether a loop lies wholly inside others without touching them. */
export const liesIn = (loop: Loop, within: readonly Loop[]): boolean => {
  const [first] = loop;
  return (
    first !== undefined &&
    within.every(
      (other) =>
        isInside(other, [first.x, first.y]) && loopGap(loop, other, 2 * NOISE_MM) > NOISE_MM,
    )
  );
};

/** A distance greater than any slide from one end of all loops to the other, mm. */
const reach = (loops: readonly Loop[]): number => {
  const boxes = loops.flatMap((loop) => loopExtents(loop) ?? []);
  const wide = Math.max(...boxes.map((b) => b.maxX)) - Math.min(...boxes.map((b) => b.minX));
  const high = Math.max(...boxes.map((b) => b.maxY)) - Math.min(...boxes.map((b) => b.minY));
  return wide + high;
};
