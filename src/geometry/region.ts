import { loopGap } from './gap.ts';
import { isInside } from './inside.ts';
import type { Loop } from './loop.ts';
import { NOISE_MM } from './tolerance.ts';
import type { Vec2 } from './vec2.ts';

/** What lies inside an outline and outside the holes in it; all run counter-clockwise. */
export interface Region {
  readonly outline: Loop;
  readonly holes: readonly Loop[];
}

/** A hole that leaves the outline or touches it, or that meets another hole. */
export interface HoleFlaw {
  readonly hole: number;
  /** The other hole; the outline where there is none. */
  readonly meets?: number;
}

/** The holes that do not lie by themselves inside the outline, each told once. */
export const holeFlaws = ({ outline, holes }: Region): HoleFlaw[] =>
  holes.flatMap((hole, i): HoleFlaw[] => {
    if (loopGap(outline, hole, 2 * NOISE_MM) <= NOISE_MM || !isInside(outline, firstOf(hole)))
      return [{ hole: i }];
    const meets = holes.slice(0, i).findIndex((other) => doMeet(hole, other));
    return meets < 0 ? [] : [{ hole: i, meets }];
  });

/** Whether two filled loops have a point in common. */
const doMeet = (a: Loop, b: Loop): boolean =>
  loopGap(a, b, 2 * NOISE_MM) <= NOISE_MM || isInside(a, firstOf(b)) || isInside(b, firstOf(a));

const firstOf = (loop: Loop): Vec2 => [loop[0]?.x ?? NaN, loop[0]?.y ?? NaN];

/** The region moved by a vector. */
export const movedRegion = ({ outline, holes }: Region, [dx, dy]: Vec2): Region => {
  const moved = (loop: Loop): Loop => loop.map((v) => ({ ...v, x: v.x + dx, y: v.y + dy }));
  return { outline: moved(outline), holes: holes.map(moved) };
};
