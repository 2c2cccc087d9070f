import type { Extents } from '../geometry/extents.ts';
import { loopGap } from '../geometry/gap.ts';
import { isInside } from '../geometry/inside.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { stop } from '../model/finding.ts';
import { type Check, type Hole, nameOf } from './check.ts';

/** Two holes that run into each other, or lie one in the other. */
export const holesMeet: Check = {
  rule: 'holes-meet',
  reason: 'The piece between them would fall out, and the cutter would cross its own cut.',
  source: 'geometry',
  run: ({ holes }) => {
    const findings = [];
    for (const [i, a] of holes.entries()) {
      for (const b of holes.slice(i + 1)) {
        if (!boxesMeet(a.box, b.box) || !doMeet(a, b)) continue;
        const message = `${nameOf(a)} and hole ${b.from} in ${b.panel} run into each other: move one, or ask for one larger cut-out.`;
        findings.push({ ...stop(holesMeet.rule, message), at: b.centre });
      }
    }
    return findings;
  },
};

const boxesMeet = (a: Extents, b: Extents): boolean =>
  a.minX <= b.maxX + NOISE_MM && b.minX <= a.maxX + NOISE_MM && a.minY <= b.maxY + NOISE_MM && b.minY <= a.maxY + NOISE_MM;

const doMeet = (a: Hole, b: Hole): boolean =>
  loopGap(a.curve, b.curve, 2 * NOISE_MM) <= NOISE_MM || startsInside(a, b) || startsInside(b, a);

const startsInside = (inner: Hole, outer: Hole): boolean => {
  const [start] = inner.curve;
  return start !== undefined && isInside(outer.curve, [start.x, start.y]);
};
