import { withChords } from '../../geometry/chords.ts';
import type { Loop } from '../../geometry/loop.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Side } from './ticks.ts';

/** A line along an edge has metal on one side of it only: both sides are asked, this far off, mm. */
const ASIDE_MM = 0.05;
/** Chords in place of arcs, mm. */
const RIM_SAG_MM = 0.05;

/**
 * How much metal an extension line runs over, mm, that goes from a place straight out to a side of a
 * blank. A line along an edge runs over none.
 */
export const metalBetween = (outline: Loop): ((from: Vec2, side: Side) => number) => {
  const rim = withChords(outline, RIM_SAG_MM);
  // The same lines are asked for again by every way of telling the sizes that is tried.
  const levels = new Map<string, readonly (readonly number[])[]>();
  const crossings = (level: number, isUpright: boolean): readonly (readonly number[])[] => {
    const key = `${isUpright} ${level}`;
    const known =
      levels.get(key) ??
      [-ASIDE_MM, ASIDE_MM].map((off) => crossingsAt(rim, level + off, isUpright));
    levels.set(key, known);
    return known;
  };
  return ([x, y], side) => {
    const isUpright = side === 'below' || side === 'above';
    const [level, start] = isUpright ? [x, y] : [y, x];
    const out = side === 'below' || side === 'left' ? -1 : 1;
    const both = crossings(level, isUpright);
    const stops = both
      .flat()
      .filter((at) => out * (at - start) > 0)
      .toSorted((a, b) => out * (a - b));
    let metal = 0;
    let at = start;
    for (const stop of stops) {
      const middle = (at + stop) / 2;
      if (both.every((line) => isWithin(line, middle))) metal += Math.abs(stop - at);
      at = stop;
    }
    return metal;
  };
};

/** A line is inside wherever it has crossed the rim an odd number of times. */
const isWithin = (crossings: readonly number[], at: number): boolean =>
  crossings.reduce((isIn, crossing) => (crossing < at ? !isIn : isIn), false);

/** Where a level or upright line crosses a polygon. */
const crossingsAt = (rim: Loop, level: number, isUpright: boolean): number[] =>
  rim.flatMap((a, i) => {
    const b = rim[(i + 1) % rim.length] ?? a;
    const [from, to] = isUpright ? [a.x, b.x] : [a.y, b.y];
    if (from <= level === to <= level) return [];
    const share = (level - from) / (to - from);
    return [isUpright ? a.y + share * (b.y - a.y) : a.x + share * (b.x - a.x)];
  });
