import { lacks } from '../../model/measured.ts';
import { middle } from '../../geometry/vec2.ts';
import type { FlatBend } from '../../model/flat.ts';
import { type Finding, note, stop, warn } from '../../model/finding.ts';
import type { Machine } from '../../model/machine.ts';
import type { Part } from '../../model/part.ts';
import type { FoldAt } from '../../model/shop.ts';
import { helpedPart, rescuedPart } from './other-plans.ts';
import { type PartPlan, planPart, setUpsOf } from './part-plan.ts';
import { planWithoutBar } from './without-bar.ts';
import { isCrease } from '../machines/helps.ts';
import { RESCUE_BUDGET } from '../search/rescue.ts';
import type { FoldPlan, FoldStep, FoldWay } from '../../contract/fold-plan.ts';
import type { PartToFold } from './plan-steps.ts';
import { figure } from '../../text/figures.ts';

/**
 * What the planner may spend on one machine while a part is made; the command `plan` may spend
 * more.
 */
const QUICK_BUDGET = 250_000;

/**
 * What it may spend at most on a transition: where its steep folds have no order at once, most often
 * they have none.
 */
const CREASED_BUDGET = 60_000;

/** The share of that for folds made in two strokes, which rescue few parts. */
const RESCUE_SHARE = 0.25;

/** How a plan is looked for. */
export interface Search {
  /** Whether hands are left out, but for what they do in any case: press hems flat, bend along slots. */
  readonly byMachineOnly?: boolean | undefined;
}

/**
 * The plan on the first machine of the shop that can fold the part, with the punch that is in it or
 * another of its own. Where none can, it is the plan on the first that can with some folds made in
 * two strokes, then on the first that can with the help of hands, and then on the first that can with
 * the bar off its leaf, which is weaker for it and takes a while. Where that fails too, it says
 * what stands in the way on the first machine that is strong enough, which is the one that the shop
 * would take. `undefined` for a part with no folds, and for a shop without machines.
 */
export function planOnShop(
  fold: PartToFold,
  machines: readonly Machine[],
  most = QUICK_BUDGET,
  { byMachineOnly = false }: Search = {},
): PartPlan | undefined {
  const budget = fold.part.folds.some(isCrease) ? Math.min(most, CREASED_BUDGET) : most;
  if (!isPlanned(fold.part)) return undefined;
  let best: PartPlan | undefined;
  const failed: PartPlan[] = [];
  for (const machine of machines) {
    const found = planPart(fold, machine, budget);
    if (found.plan.feasible === true) return found;
    for (const otherwise of setUpsOf(machine)) {
      const plan = planPart(fold, otherwise, budget);
      if (plan.plan.feasible === true) return plan;
    }
    failed.push(found);
    if (best === undefined || hope(found) > hope(best)) best = found;
  }
  for (const plan of failed) {
    const rescued = rescuedPart(fold, plan, Math.min(RESCUE_SHARE * budget, RESCUE_BUDGET));
    if (rescued !== undefined) return rescued;
  }
  for (const plan of byMachineOnly ? [] : failed) {
    const helped = helpedPart(fold, plan, budget);
    if (helped !== undefined) return helped;
  }
  for (const plan of failed) {
    const bare = planWithoutBar(fold, plan, budget);
    if (bare !== undefined) return bare;
  }
  return best;
}

/** Whether a part is planned. */
export const isPlanned = ({ folds }: Part): boolean => folds.length > 0;

/**
 * How near a machine comes: an answer that is not decided may still be a yes, and a machine that is
 * too weak is none to ask further about.
 */
const hope = ({ plan }: PartPlan): number =>
  plan.feasible === null
    ? 2
    : plan.blockedBy.some((b) => b.after.length === 0 && b.touches === null)
      ? 0
      : 1;

/** What the plan means for making the part. */
export function planFindings(
  plan: FoldPlan | undefined,
  foldAt: FoldAt,
  bends: readonly FlatBend[] = [],
): Finding[] {
  if (plan === undefined) return [];
  if (plan.feasible === true)
    return [
      ...inTwoFindings(plan),
      ...byHandFindings(plan),
      ...barFindings(plan),
      ...byEyeFindings(plan),
    ];
  if (plan.feasible === null)
    return [
      note(
        'fold-order-open',
        `Whether it can be folded on ${plan.machine} is not decided: there are too many orders to try. blankwright plan looks longer. ${FEWER_STROKES}.`,
      ),
    ];
  const [first] = plan.blockedBy;
  const why =
    first === undefined
      ? plan.blockEachOther.length === 0
        ? ''
        : `: folds ${plan.blockEachOther.join(', ')} block each other in every order`
      : `: ${first.after.length === 0 ? '' : `after ${first.after.join(', ')} `}fold ${first.bend} cannot be made, ${first.reason}`;
  const helps =
    first === undefined || first.suggestion === null
      ? 'blankwright plan tells what would help, and makeFoldable makes it so that it can be.'
      : `What helps: ${first.suggestion}.`;
  const message = `No machine of the shop folds it. On ${plan.machine}${why}. ${helps}`;
  const finding =
    foldAt === 'here'
      ? stop('no-fold-order', message)
      : warn(
          'no-fold-order',
          `${message} The blank is drawn all the same, to be folded elsewhere.`,
        );
  return [{ ...finding, ...blockedAt(first, bends) }];
}

/** The place of the fold that cannot be made, and how far it gets. */
const blockedAt = (
  blocked: FoldPlan['blockedBy'][number] | undefined,
  bends: readonly FlatBend[],
): Partial<Finding> => {
  const bend = bends.find(({ id }) => blocked?.bend.split(' + ').includes(id));
  if (blocked === undefined || bend === undefined) return {};
  return {
    at: middle(...bend.centreLine),
    ...(blocked.atDeg !== null &&
      blocked.atDeg < bend.angleDeg &&
      lacks(blocked.atDeg, bend.angleDeg, 'deg')),
  };
};

/** Folds that no stroke of a machine was asked for. */
const NO_STROKE: readonly FoldWay[] = [
  'along slots',
  'round a former',
  'in rolls',
  'bumped',
  'by eye',
];

/** The ways in which hands help a machine. */
const isHelped = ({ way, tight, note }: FoldStep): boolean =>
  (way !== 'machine' && !NO_STROKE.includes(way)) ||
  tight !== undefined ||
  (note?.includes('tight: ') ?? false);

const byHandFindings = ({ machine, steps }: FoldPlan): Finding[] => {
  const helped = steps.filter(isHelped);
  return helped.length === 0
    ? []
    : [
        note(
          'fold-by-hand',
          `On ${machine} no order works by the machine alone; with the help of hands one does: ${helped
            .map((s) => `fold ${s.bend} ${s.way === 'machine' ? 'tight' : s.way}`)
            .join(', ')}.`,
        ),
      ];
};

const barFindings = ({ machine, barTakenOff }: FoldPlan): Finding[] =>
  barTakenOff === true
    ? [
        note(
          'leaf-bar-off',
          `On ${machine} no order works with the bar on its leaf, nor with the help of hands; with the bar taken off one does.`,
        ),
      ]
    : [];

const byEyeFindings = ({ steps }: FoldPlan): Finding[] => {
  const creases = steps.filter(({ way }) => way === 'by eye');
  const most = Math.max(...creases.map(({ stopAtDeg }) => stopAtDeg));
  return creases.length === 0
    ? []
    : [
        note(
          'folds-by-eye',
          `${creases.length === 1 ? 'One fold is' : `${creases.length} folds are`} made by eye, of up to ${figure(most)} deg, in the order of the plan, from the outside in: on the line in the leaf where the part goes in, or over a bar under clamps. Go over all of them a little short first; cut templates of both openings out of card, and pull them in until they fit.`,
        ),
      ];
};

const inTwoFindings = ({ machine, steps }: FoldPlan): Finding[] => {
  const later = steps.flatMap(({ bend, inTwo }, i) =>
    inTwo?.stroke === 2 ? [`fold ${bend} in steps ${inTwo.otherStep} and ${i + 1}`] : [],
  );
  return later.length === 0
    ? []
    : [
        note(
          'fold-in-two',
          `On ${machine} no order works with every fold made at one stroke; made in two strokes, in part first and finished later: ${later.join(', ')}.`,
        ),
      ];
};

/** What helps where there are too many orders to try. */
export const FEWER_STROKES =
  'Folds side by side on one line, alike in angle and direction, are one stroke; or make it in pieces (weldAt)';
