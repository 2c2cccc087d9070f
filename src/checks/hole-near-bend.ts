import { atLeast, figure } from '../figures.ts';
import { loopGap } from '../geometry/gap.ts';
import { isInside } from '../geometry/inside.ts';
import { type Loop, polygon } from '../geometry/loop.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { type Finding, warn } from '../model/finding.ts';
import type { FlatBend } from '../model/flat.ts';
import { type Check, type Hole, nameOf } from './check.ts';

/** Thicknesses of flat metal between a hole's edge and the line where the bend begins. */
const THICKNESSES = 2;

/** A hole whose edge reaches into a bend, or so near that folding pulls it out of shape. */
export const holeNearBend: Check = {
  rule: 'hole-near-bend',
  reason: 'Metal beside a bend stretches with it: a hole there turns oval, and its edge lifts.',
  source: [
    'Common practice: from the edge of a hole to a bend 2 to 3 thicknesses plus the inside radius, measured from the',
    'inside face of the other leg; that is 2 to 3 thicknesses from where the bend begins.',
  ].join(' '),
  run: ({ flat, holes }) => {
    const least = THICKNESSES * flat.thicknessMm;
    return flat.bends.flatMap((bend) => {
      const zone = zoneOf(bend);
      return holes.filter((hole) => hole.fold !== bend.id).flatMap((hole) => examine(hole, bend, zone, least));
    });
  },
};

const zoneOf = ({ parentTangent: [a, b], childTangent: [c, d] }: FlatBend): Loop => polygon(a, b, d, c);

function examine(hole: Hole, bend: FlatBend, zone: Loop, least: number): Finding[] {
  const gap = loopGap(hole.curve, zone, least);
  const touches = gap <= NOISE_MM || isInside(zone, hole.centre);
  if (!touches && gap >= least - NOISE_MM) return [];
  return [found(hole, touches ? insideMessage(hole, bend, least) : nearMessage(hole, bend, least, gap))];
}

const insideMessage = (hole: Hole, bend: FlatBend, least: number): string =>
  `${nameOf(hole)} reaches into bend ${bend.id} and will be pulled out of shape: keep its edge ${figure(least)} mm clear ` +
  'of where the bend begins (2 thicknesses), or drill it after folding.';

const nearMessage = (hole: Hole, bend: FlatBend, least: number, gap: number): string =>
  `${nameOf(hole)} comes within ${figure(gap)} mm of where bend ${bend.id} begins; common practice asks for ` +
  `${figure(least)} mm (2 thicknesses). Move it ${atLeast(least - gap)} mm further from the fold, or drill it after folding.`;

const found = (hole: Hole, message: string): Finding => ({ ...warn(holeNearBend.rule, message), at: hole.centre });
