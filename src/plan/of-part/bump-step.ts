import { isTooClose, MOST_HIT_DEG, shortByMm } from '../../bending/bump.ts';
import { dot, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { BumpedBend } from '../../contract/fold-plan.ts';
import type { FlatBend } from '../../model/flat.ts';
import type { Machine } from '../../model/machine.ts';
import { figure } from '../../text/figures.ts';
import { bendMark } from './bend-mark.ts';
import { bumpedPart } from './bumped-part.ts';
import type { Forming } from './forming.ts';
import { type PartToFold, swingTo } from './plan-steps.ts';
import type { BareStep } from './step-card.ts';
import { bendNamed } from './step-notes.ts';

type Bumped = Extract<Forming, { readonly way: 'bumped' }>;

/** Legs that come out shorter than this are told, mm. */
const TOLD_SHORT_MM = 0.1;

/** The step of a bend that is made in hits: where their lines are, how far each is taken, what is doubtful. */
export function bumpStep(
  part: PartToFold,
  machine: Machine,
  bend: FlatBend,
  formed: Bumped,
  made: ReadonlySet<string>,
): BareStep {
  const { bump, hitRadiusMm, check } = formed;
  const { fold, hits } = bumpedPart(part, bend, bump, hitRadiusMm);
  const order = check.clamped === 'parent' ? hits.toReversed() : hits;
  const lines = order.map((id) => bendNamed(fold.flat, id));
  const [first] = lines as [FlatBend];
  const clamped = check.clamped === 'parent' ? bend.parent : bend.child;
  // The line of a hit is so slight that it lies under the tip of the nose, as in the middle of a V.
  const mark = bendMark(part.flat, { ...bend, centreLine: first.centreLine }, clamped, made, {
    kind: 'v',
  });
  const fromMm = (line: FlatBend): number => awayFrom(line.centreLine, first, mark);
  const shortMm = shortByMm({ ...bend, thicknessMm: fold.flat.thicknessMm }, bump, hitRadiusMm);
  const told: BumpedBend = {
    ...bump,
    shortMm,
    linesMm: mark.distanceMm === null ? [] : lines.map(fromMm),
    isClear: check.isClear,
    doubts: doubtsOf(fold, machine, formed),
  };
  const offsetDeg = machine.stopOffsetDeg?.value ?? 0;
  return {
    bend: bend.id,
    clampedSide: clamped,
    flip: false,
    turnDeg: 0,
    stopAtDeg: swingTo(fold, machine, first) + offsetDeg,
    stop: {
      offsetDeg,
      basis: machine.stopOffsetDeg?.basis === 'measured' ? 'measured' : 'assumed',
    },
    sightLineMm: mark.distanceMm,
    from: mark.from,
    mark: mark.foot === null ? null : { at: mark.at, from: mark.foot },
    nose: null,
    fingersMm: [],
    note: noteOf(told, bend, clamped),
    way: 'bumped',
    byHandDeg: 0,
    bump: told,
  };
}

/** How far a line lies from what the first one is measured from, square to the bend. */
const awayFrom = (
  [p]: readonly [Vec2, Vec2],
  { centreLine: [first, end] }: FlatBend,
  { distanceMm, at, foot }: ReturnType<typeof bendMark>,
): number => {
  if (distanceMm === null || foot === null) return 0;
  const along = unit(sub(end, first));
  const across: Vec2 = [-along[1], along[0]];
  const sign = dot(sub(at, foot), across) < 0 ? -1 : 1;
  return distanceMm + sign * dot(sub(p, first), across);
};

const noteOf = (b: BumpedBend, bend: FlatBend, clamped: string): string =>
  [
    `bumped in ${b.hits} hits of ${figure(b.angleDeg, 1)} deg, lines ${figure(b.pitchMm, 2)} mm apart`,
    `the first and the last flat reach ${figure(b.firstMm, 2)} mm into the bend`,
    `begin at the line farthest from ${clamped} and draw the sheet out from line to line`,
    'bend three on a strip first: a slight hit springs back more than its share',
    `corners stand ${figure(b.standOffMm, 2)} mm off the arc; hold a card of radius ${figure(bend.insideRadiusMm)} mm to it every few hits, and make the angle up at the last ones`,
    ...(b.shortMm >= TOLD_SHORT_MM
      ? [`both legs together come out ${figure(b.shortMm, 1)} mm shorter than with an arc`]
      : []),
    ...b.doubts,
  ].join('; ');

/** What speaks against these hits on this machine. */
const doubtsOf = (
  { flat: { thicknessMm } }: PartToFold,
  machine: Machine,
  { bump, check }: Bumped,
): string[] => [
  ...(check.isClear === false ? [`${machine.id} does not get through: ${check.reason ?? ''}`] : []),
  ...(check.isClear === null
    ? [
        `whether it stays clear of ${machine.id} was not decided: there are too many folds beside it`,
      ]
    : []),
  ...(isTooClose(bump, thicknessMm)
    ? [
        `lines ${figure(bump.pitchMm, 1)} mm apart run into one another: 1.5 thicknesses, ${figure(1.5 * thicknessMm, 1)}, are needed`,
      ]
    : []),
  ...(bump.angleDeg > MOST_HIT_DEG
    ? [`hits of ${figure(bump.angleDeg, 1)} deg leave flats that are seen`]
    : []),
  // Earlier hits lie in the die where the pitch is less than half of it (trade texts on step bending).
  ...(machine.kind === 'press brake' && bump.pitchMm < machine.vMm.value / 2
    ? [
        `earlier hits lie in the V of ${figure(machine.vMm.value)}: a V of ${figure(2 * bump.pitchMm, 1)} or less keeps clear of them`,
      ]
    : []),
];
