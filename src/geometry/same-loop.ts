import { pieceGapsOf } from './gap.ts';
import { type Loop, wrapped } from './loop.ts';
import { piecesOf, pointOn } from './piece.ts';
import type { Vec2 } from './vec2.ts';

/**
 * Whether two loops are one line drawn twice: the corners and the middles of the pieces of each lie
 * on the other, within `withinMm`. Where each loop begins, which way it runs and how it is cut into
 * pieces does not matter.
 */
export const isSameLoop = (a: Loop, b: Loop, withinMm: number): boolean =>
  isOn(a, b, withinMm) && isOn(b, a, withinMm);

const isOn = (a: Loop, b: Loop, withinMm: number): boolean => {
  const near = finder(b, withinMm);
  return piecesOf(a).every((p) => near(p.from) && near(pointOn(p, 0.5)));
};

/**
 * Tells whether a point lies near a loop. The search begins where the last one ended and goes both
 * ways, so points that come in order along the loop are found at once.
 */
const finder = (loop: Loop, withinMm: number): ((p: Vec2) => boolean) => {
  const gap = pieceGapsOf(loop);
  let last = 0;
  return (p) => {
    for (let k = 0; k <= loop.length / 2; k++) {
      for (const i of [wrapped(loop, last + k), wrapped(loop, last - k)]) {
        if (gap(p, i) > withinMm) continue;
        last = i;
        return true;
      }
    }
    return false;
  };
};
