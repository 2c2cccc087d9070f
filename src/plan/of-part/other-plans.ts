import { foldIdsOf } from '../machines/net.ts';
import { withPreFolds } from '../machines/pre-fold.ts';
import { doBlock } from '../search/blocking-set.ts';
import { latticeOf } from '../search/lattice.ts';
import { type PlanAnswer, planFolds } from '../search/plan.ts';
import { PRE_FOLD_SHARE, rescueByPreFolds } from '../search/rescue.ts';
import { handsFor, isWithinHands } from './hands.ts';
import { allSteps, netFor, type PartPlan, tooMuchFor } from './part-plan.ts';
import type { PartToFold } from './plan-steps.ts';
import { restsOn } from './rests-on.ts';
import { toldOfBar } from './without-bar.ts';

/**
 * The same part with some folds made to half their angle first, for one that is proved to have no
 * order otherwise. `undefined` where that does not help, or was not found to.
 */
export function rescuedPart(
  fold: PartToFold,
  found: PartPlan,
  budget: number,
): PartPlan | undefined {
  const { answer, machine } = found;
  if (answer.verdict !== 'impossible') return undefined;
  if (tooMuchFor(fold, machine, answer.lattice.net).length > 0) return undefined;
  const rescued = rescueByPreFolds(answer.lattice.net, machine, {
    blockingSet: answer.blockingSet,
    budget,
  });
  return rescued?.verdict === 'feasible' ? withOrder(fold, found, rescued) : undefined;
}

/**
 * The same part with the help of hands, for one that is proved to have no order by the machine
 * alone: of all orders with help the one with the least of it. `undefined` where none was found.
 */
export function helpedPart(
  fold: PartToFold,
  found: PartPlan,
  budget: number,
): PartPlan | undefined {
  const {
    answer: { lattice, verdict, blockingSet },
    machine,
  } = found;
  const tooMuch = tooMuchFor(fold, machine, lattice.net);
  if (verdict === 'not decided' || (verdict === 'feasible' && tooMuch.length === 0))
    return undefined;
  const hands = handsFor(fold, lattice.net, tooMuch);
  if (!isWithinHands(hands)) return undefined;
  const helped = { ...lattice.net, hands };
  if (blockingSet !== undefined && doBlock(helped, machine, blockingSet).yes) return undefined;
  const answer = planFolds(helped, machine, {
    mostOrders: 0,
    explain: false,
    onlyOrder: true,
    budget,
  });
  return answer.verdict === 'feasible' ? withOrder(fold, found, answer) : undefined;
}

const withOrder = (fold: PartToFold, { machine, plan }: PartPlan, answer: PlanAnswer): PartPlan => {
  const steps = allSteps(fold, machine, answer, netFor(fold, machine).byHand);
  return {
    answer,
    machine,
    plan: {
      ...plan,
      feasible: true,
      steps,
      blockedBy: [],
      blockEachOther: [],
      restsOn: restsOn(machine, steps),
    },
  };
};

/**
 * The plan of the other hand from that of one: the same strokes in the same order, each laid out on
 * the mirrored blank, with its fingers, marks and turns as they lie there. Every stroke is asked of
 * the mirrored part once more. `undefined` where it is not the mirror image, as it seems.
 */
export function otherHandOf(mirrored: PartToFold, found: PartPlan): PartPlan | undefined {
  const { answer, machine, plan } = found;
  const { folds, hands, preFolds = [] } = answer.lattice.net;
  const { net: own } = netFor(mirrored, machine);
  const names = (of: typeof folds): string => JSON.stringify(of.map(foldIdsOf));
  if (names(own.folds) !== names(folds)) return undefined;
  const inTwo = preFolds.map((p) => p.fold);
  const whole = inTwo.length === 0 ? own : withPreFolds(own, inTwo, PRE_FOLD_SHARE);
  const lattice = latticeOf(hands === undefined ? whole : { ...whole, hands }, machine);
  let made = 0;
  for (const { stroke, placement } of answer.moves) {
    if (!lattice.isClear(stroke, made, placement)) return undefined;
    made |= lattice.strokes[stroke]?.bits ?? 0;
  }
  const same = { ...answer, lattice };
  if (plan.feasible !== true) return { answer: same, machine, plan };
  const other = withOrder(mirrored, found, same);
  return plan.barTakenOff === true ? toldOfBar(other) : other;
}
