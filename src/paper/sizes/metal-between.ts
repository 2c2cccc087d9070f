import { withChords } from '../../geometry/chords.ts';
import { isInside } from '../../geometry/inside.ts';
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
  return ([x, y], side) => {
    const isUpright = side === 'below' || side === 'above';
    const [level, start] = isUpright ? [x, y] : [y, x];
    const out = side === 'below' || side === 'left' ? -1 : 1;
    const offs = [-ASIDE_MM, ASIDE_MM];
    const stops = offs
      .flatMap((off) => crossingsAt(rim, level + off, isUpright))
      .filter((at) => out * (at - start) > 0)
      .toSorted((a, b) => out * (a - b));
    let metal = 0;
    let at = start;
    for (const stop of stops) {
      const middle = (at + stop) / 2;
      const isMetal = offs.every((off) =>
        isInside(rim, isUpright ? [level + off, middle] : [middle, level + off]),
      );
      if (isMetal) metal += Math.abs(stop - at);
      at = stop;
    }
    return metal;
  };
};

/** Where a level or upright line crosses a polygon. */
const crossingsAt = (rim: Loop, level: number, isUpright: boolean): number[] =>
  rim.flatMap((a, i) => {
    const b = rim[(i + 1) % rim.length] ?? a;
    const [from, to] = isUpright ? [a.x, b.x] : [a.y, b.y];
    if (from <= level === to <= level) return [];
    const share = (level - from) / (to - from);
    return [isUpright ? a.y + share * (b.y - a.y) : a.x + share * (b.x - a.x)];
  });
