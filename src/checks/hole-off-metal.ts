import { atMost } from '../figures.ts';
import { loopGap, pointGap } from '../geometry/gap.ts';
import { isInside } from '../geometry/inside.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { type Finding, stop } from '../model/finding.ts';
import type { FlatPattern } from '../model/flat.ts';
import { type Check, type Hole, nameOf } from './check.ts';

/** A hole that is not wholly inside the outline. */
export const holeOffMetal: Check = {
  rule: 'hole-off-metal',
  reason: 'A cutter would leave the blank, and the outline would not be one closed line.',
  source: 'geometry',
  run: ({ flat, holes }) => holes.flatMap((hole) => examine(flat, hole)),
};

function examine(flat: FlatPattern, hole: Hole): Finding[] {
  const [first] = hole.curve;
  if (first === undefined || hole.diameterMm === 0) return [];
  if (loopGap(hole.curve, flat.outline, 2 * NOISE_MM) > NOISE_MM) {
    if (isInside(flat.outline, [first.x, first.y])) return [];
    return [found(hole, `${nameOf(hole)} lies off the metal: check its across and along.`)];
  }
  const room = isInside(flat.outline, hole.centre) ? 2 * pointGap(hole.centre, flat.outline) : 0;
  const mend =
    hole.diameterMm === undefined || room < 0.1
      ? 'move it inwards or make it smaller.'
      : `move it inwards, or make its diameter less than ${atMost(room)}.`;
  return [found(hole, `${nameOf(hole)} crosses the outline: ${mend}`)];
}

const found = (hole: Hole, message: string): Finding => ({ ...stop(holeOffMetal.rule, message), at: hole.centre });
