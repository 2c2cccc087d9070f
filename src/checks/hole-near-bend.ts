import { lacks } from '../model/measured.ts';
import { atLeast, figure } from '../text/figures.ts';
import { loopExtents } from '../geometry/extents.ts';
import { loopGap } from '../geometry/gap.ts';
import { isInside } from '../geometry/inside.ts';
import { type Loop, polygon } from '../geometry/loop.ts';
import { moveLoop } from '../geometry/motion2.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { dot, leftOf, scale, sub, unit } from '../geometry/vec2.ts';
import { type Finding, warn } from '../model/finding.ts';
import type { FlatBend } from '../model/flat.ts';
import { type Check, type Hole, nameOf, onHole } from './check.ts';

/** Thicknesses of flat metal between a hole's edge and the line where the bend begins. */
const THICKNESSES = 2;

/** A hole whose edge reaches into a bend, or so near that folding pulls it out of shape. */
export const holeNearBend: Check = {
  rule: 'hole-near-bend',
  title: 'A hole reaches into a bend, or lies so near that folding pulls it.',
  severities: ['warn'],
  reason: 'Metal beside a bend stretches with it: a hole there turns oval, and its edge lifts.',
  source: [
    'Common practice: from the edge of a hole to a bend 2 to 3 thicknesses plus the inside radius, measured from the',
    'inside face of the other leg; that is 2 to 3 thicknesses from where the bend begins. No source says how far a hole',
    'beside a bend is pulled; how far one inside it is follows from its radii.',
  ].join(' '),
  measured: 'from the edge of the hole to where the bend begins, against two thicknesses',
  mend: 'Move it away from the fold, or drill it after folding.',
  run: ({ flat, holes }) =>
    flat.bends.flatMap((bend) => {
      const place: BendPlace = {
        bend,
        zone: zoneOf(bend),
        thicknessMm: flat.thicknessMm,
        leastMm: THICKNESSES * flat.thicknessMm,
      };
      return holes.filter((hole) => hole.fold !== bend.id).flatMap((hole) => examine(hole, place));
    }),
};

interface BendPlace {
  readonly bend: FlatBend;
  readonly zone: Loop;
  readonly thicknessMm: number;
  readonly leastMm: number;
}

const zoneOf = ({ parentTangent: [a, b], childTangent: [c, d] }: FlatBend): Loop =>
  polygon(a, b, d, c);

function examine(hole: Hole, place: BendPlace): Finding[] {
  const { zone, leastMm } = place;
  const gap = loopGap(hole.curve, zone, leastMm);
  const touches = gap <= NOISE_MM || isInside(zone, hole.centre);
  if (!touches && gap >= leastMm - NOISE_MM) return [];
  const message = touches ? insideMessage(hole, place) : nearMessage(hole, place, gap);
  return [
    { ...warn(holeNearBend, message), ...onHole(hole), ...lacks(touches ? 0 : gap, leastMm) },
  ];
}

const insideMessage = (hole: Hole, place: BendPlace): string =>
  `${nameOf(hole)} reaches into bend ${place.bend.id} and will be pulled out of shape${pullOf(hole, place)}: keep its edge ${figure(place.leastMm)} mm clear ` +
  'of where the bend begins (2 thicknesses), or drill it after folding.';

const nearMessage = (hole: Hole, { bend, leastMm }: BendPlace, gap: number): string =>
  `${nameOf(hole)} comes within ${figure(gap)} mm of where bend ${bend.id} begins; common practice asks for ` +
  `${figure(leastMm)} mm (2 thicknesses). Move it ${atLeast(leastMm - gap)} mm further from the fold, or drill it after folding.`;

/**
 * Both faces of a bend are arcs of the same angle, with the radii r and r + t. The length that does
 * not change is the arc at r + K t, with the K of the bend's rule. The outside face is therefore
 * stretched by (r + t) / (r + K t), and the inside face compressed by r / (r + K t).
 */
function pullOf(hole: Hole, { bend, thicknessMm }: BendPlace): string {
  const inBend = lengthInBend(hole, bend);
  const { insideRadiusMm: r, kFactor, midSurface } = bend;
  const neutral = r + kFactor * thicknessMm;
  if (midSurface === true || inBend < 0.01 || neutral <= 0) return '';
  const longer = inBend * ((r + thicknessMm) / neutral - 1);
  const shorter = inBend * (1 - r / neutral);
  return ` (the ${figure(inBend)} mm of it in the bend come out ${figure(longer)} mm longer on the outside face, ${figure(shorter)} mm shorter on the inside face)`;
}

/** How much of a hole lies between the tangent lines, measured square to the fold. */
function lengthInBend(
  hole: Hole,
  { parentTangent: [from, to], childTangent: [opposite], allowanceMm }: BendPlace['bend'],
): number {
  const left = leftOf(unit(sub(to, from)));
  const across = dot(sub(opposite, from), left) < 0 ? scale(left, -1) : left;
  // The hole is turned so that x runs across the bend, from the parent's tangent line.
  const box = loopExtents(
    moveLoop({ c: across[0], s: -across[1], x: -dot(from, across), y: 0 }, hole.curve),
  );
  return box === undefined
    ? 0
    : Math.max(0, Math.min(box.maxX, allowanceMm) - Math.max(box.minX, 0));
}
