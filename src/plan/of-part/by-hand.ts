import { bumpOf, MOST_HIT_DEG } from '../../bending/bump.ts';
import { figure } from '../../text/figures.ts';
import type { BareStep } from './step-card.ts';
import type { FlatBend } from '../../model/flat.ts';
import type { Machine } from '../../model/machine.ts';
import type { Fold } from '../../model/part.ts';
import type { FoldWay } from '../../contract/fold-plan.ts';
import { isByEye } from './by-eye.ts';
import { bumpStep } from './bump-step.ts';
import { type Forming, formingOf } from './forming.ts';
import type { PartToFold } from './plan-steps.ts';
import { bendNamed } from './step-notes.ts';

/** Radii of formers nearer to what they leave than this need no word, mm. */
const SAME_FORMER_MM = 0.5;

/** How a bend is formed: round what, and where that helps in how many hits, and how far apart. */
export const formedNote = (
  bend: FlatBend,
  thicknessMm: number,
  toolRadiusMm = bend.insideRadiusMm,
): string => {
  const { hits, angleDeg, pitchMm } = bumpOf({ ...bend, thicknessMm });
  const bumped =
    angleDeg > MOST_HIT_DEG
      ? ''
      : `, or bumped in ${hits} hits of ${figure(angleDeg, 1)} deg, ${figure(pitchMm, 1)} mm apart`;
  const sprung =
    bend.insideRadiusMm - toolRadiusMm < SAME_FORMER_MM
      ? ''
      : `; one of radius ${figure(toolRadiusMm, 1)} leaves that, for it springs open`;
  return `by hand round a pipe, bar or former of radius ${figure(bend.insideRadiusMm)}, or in rolls${bumped}: it is no fold${sprung}`;
};

/** How a bend is rolled. */
const rolledNote = (
  bend: FlatBend,
  { toolRadiusMm, rolls, notRolled }: Extract<Forming, { readonly way: 'in rolls' }>,
): string =>
  [
    `in ${rolls?.name ?? 'rolls'}, to and fro between its tangent lines until a card of radius ${figure(bend.insideRadiusMm)} mm lies in it`,
    `set for ${figure(toolRadiusMm, 1)} mm it springs open to that`,
    'it is no fold',
    ...notRolled,
  ].join('; ');

/**
 * The step of a fold that no stroke makes: one in rolls, in hits or round a former, or a row of slots.
 * `made` are the folds that the machine has made by then.
 */
export function handStep(
  part: PartToFold,
  machine: Machine,
  fold: Fold,
  made: readonly string[],
): BareStep {
  const bend = bendNamed(part.flat, fold.id);
  if (fold.slots !== undefined)
    return byHandStep(bend, 'along slots', {
      from: 'its row of slots',
      note: 'by hand along its slots, to the angle itself, then weld the slots up',
    });
  if (isByEye(part, fold, bend))
    return byHandStep(bend, 'by eye', { from: 'its marks at both ends', note: BY_EYE });
  const formed = formingOf(part, machine, fold, bend, made);
  if (formed.way === 'bumped') return bumpStep(part, machine, bend, formed, new Set(made));
  return byHandStep(bend, formed.way, {
    from: 'the tangent lines at both its ends',
    note:
      formed.way === 'in rolls'
        ? rolledNote(bend, formed)
        : [
            formedNote(bend, part.flat.thicknessMm, formed.toolRadiusMm),
            ...(formed.notBumped === undefined
              ? []
              : [`${machine.id} does not get through the hits: ${formed.notBumped}`]),
          ].join('; '),
  });
}

const BY_EYE = 'by eye, to a card of its angle';

const byHandStep = (
  bend: FlatBend,
  way: FoldWay,
  said: Pick<BareStep, 'from' | 'note'>,
): BareStep => ({
  bend: bend.id,
  clampedSide: bend.parent,
  flip: false,
  turnDeg: 0,
  stopAtDeg: bend.angleDeg,
  sightLineMm: null,
  mark: null,
  nose: null,
  fingersMm: [],
  way,
  byHandDeg: bend.angleDeg,
  ...said,
});
