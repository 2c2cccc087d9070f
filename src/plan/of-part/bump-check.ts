import { type Bump, bumpOf } from '../../bending/bump.ts';
import type { FlatBend } from '../../model/flat.ts';
import type { Machine } from '../../model/machine.ts';
import { foldIdsOf } from '../machines/net.ts';
import type { Placement } from '../machines/placed-part.ts';
import { MOVING, STILL } from '../machines/stroke-rules.ts';
import { type Lattice, latticeOf } from '../search/lattice.ts';
import { whyNot } from '../search/reasons.ts';
import type { Stroke } from '../search/stroke.ts';
import { type BumpedPart, bumpedPart } from './bumped-part.ts';
import { beyondCapacity } from './capacity.ts';
import { partNet } from './part-net.ts';
import { type PartToFold, swingTo } from './plan-steps.ts';
import { bendNamed } from './step-notes.ts';

/** Whether a machine gets through the hits of a bend, and in which order. */
export interface BumpCheck {
  /** `null` where it was not decided. */
  readonly isClear: boolean | null;
  /** The side that is clamped: the hits begin at the other one, and the metal is drawn out. */
  readonly clamped: 'parent' | 'child';
  /** What stands in the way where it does not get through. */
  readonly reason?: string;
}

/**
 * The most hits that are followed one by one. More of them are followed as so many larger ones: the
 * metal curls along the same arc.
 */
const MOST_FOLLOWED = 14;

/** The most folds beside them; a state has a bit for each, and past this few are answered fast. */
const MOST_OTHERS = 10;

/**
 * Follows the hits one after the other on the machine, from either end of the bend, with the folds
 * of `made` made before: metal that is still flat is clamped, and what was bent so far stands in
 * front. Only the flange in front of the first hit has to be long enough for the leaf, and only the
 * metal behind the last for the clamp: between two hits the sheet is as good as flat.
 */
export function checkBump(
  whole: PartToFold,
  machine: Machine,
  bend: FlatBend,
  bump: Bump,
  hitRadiusMm: number,
  made: readonly string[],
): BumpCheck {
  if (made.length > MOST_OTHERS) return { isClear: null, clamped: 'parent' };
  const followed =
    bump.hits <= MOST_FOLLOWED
      ? bump
      : bumpOf({ ...bend, thicknessMm: whole.flat.thicknessMm }, { hits: MOST_FOLLOWED });
  const bumped = bumpedPart(whole, bend, followed, hitRadiusMm);
  const [beyond] = beyondCapacity(bumpedPart(whole, bend, bump, hitRadiusMm).fold, machine).filter(
    (b) => b.bend.startsWith('hit '),
  );
  if (beyond !== undefined) return { isClear: false, clamped: 'parent', reason: beyond.reason };
  const lattice = latticeFor(bumped, machine, made);
  const [one, other] = ([0, 1] as const).map((placement) =>
    blockedAt(lattice, bumped.hits, placement, made),
  );
  if (one === undefined) return { isClear: true, clamped: 'parent' };
  if (other === undefined) return { isClear: true, clamped: 'child' };
  return { isClear: false, clamped: 'parent', reason: one };
}

const latticeFor = (
  { fold, hits }: BumpedPart,
  machine: Machine,
  made: readonly string[],
): Lattice => {
  const isHit = (id: string): boolean => hits.includes(id);
  const { net } = partNet(fold.part, fold.flat, {
    mostDeg: machine.maxAngleDeg?.value,
    isByHand: ({ id }) => !isHit(id) && !made.includes(id),
    overbendOf: ({ id, angleDeg }) =>
      isHit(id) ? swingTo(fold, machine, bendNamed(fold.flat, id)) - angleDeg : 0,
  });
  return latticeOf(net, machine);
};

/** What is in the way of the hits with one side clamped, from the other side on. */
function blockedAt(
  { net, strokes }: Lattice,
  hits: readonly string[],
  placement: Placement,
  before: readonly string[],
): string | undefined {
  const numberOf = (id: string): number =>
    net.folds.findIndex((fold) => foldIdsOf(fold).includes(id));
  const order = placement === 0 ? hits.toReversed() : hits;
  let made = before.reduce((bits, id) => bits | (1 << numberOf(id)), 0);
  for (const [i, hit] of order.entries()) {
    const fold = numberOf(hit);
    const stroke = strokes.find(({ folds }) => folds.length === 1 && folds[0] === fold) as Stroke;
    const { stripMm } = stroke.rules;
    // Flat metal is asked for where the row of hits begins and ends, not between them.
    const stripOf = (side: typeof STILL | typeof MOVING, isAsked: boolean): number =>
      isAsked ? stripMm[side] : 0;
    const rules = {
      ...stroke.rules,
      stripMm: [stripOf(STILL, i === order.length - 1), stripOf(MOVING, i === 0)] as const,
    };
    const reason = whyNot(net, { ...stroke, rules }, made, placement);
    if (reason !== undefined)
      return `at hit ${i + 1}${order.length > 1 ? ` of ${order.length}` : ''}, ${reason.text}`;
    made |= 1 << fold;
  }
  return undefined;
}
