import { bitCount } from '../machines/bits.ts';
import { isFlip, orientationOf, turnDeg } from './cost.ts';
import type { Move } from './cheapest.ts';
import type { Lattice } from './lattice.ts';
import type { NetFold } from '../machines/net.ts';
import type { PlanAnswer } from './plan.ts';
import { bentFold } from '../machines/pre-fold.ts';
import { whyNot } from './reasons.ts';
import type { Stroke } from './stroke.ts';
import type { InTwo } from '../../contract/fold-plan.ts';
import type {
  FoldPlanResult,
  PlanResult,
  StepResult,
  StrokeNames,
} from '../../contract/panel-plan.ts';

const MOST_BLOCKED = 200;

/** @param rescued an answer with folds made in two strokes, for a part that has none without */
export function planResult(
  answer: PlanAnswer,
  machineId: string,
  rescued?: PlanAnswer,
): PlanResult {
  const { lattice, verdict, deadEnds } = answer;
  const { net, strokes, full } = lattice;
  const isNested = strokes.some((s) => s.folds.length > 1);
  const named = (stroke: number): StrokeNames =>
    isNested ? idsOf(lattice, stroke) : (idsOf(lattice, stroke)[0] as string);
  return {
    machine: machineId,
    feasible: verdict === 'not decided' ? null : verdict === 'feasible',
    verdict,
    orders: answer.orders.map((order) => order.map(named)),
    feasibleOrders: exact(answer.orderCount),
    totalOrders: isNested ? exact(answer.totalCount) : exact(factorial(bitCount(full))),
    maxBendsReachable: deadEnds.mostFolds ?? null,
    blocked: deadEnds.ends.slice(0, MOST_BLOCKED).map(({ made, stroke }) => ({
      already_folded: net.folds.filter((_, i) => (made & (1 << i)) !== 0).map((f) => f.id),
      bend: named(stroke),
      parent_side_clamped: whyNot(net, strokes[stroke] as Stroke, made, 0)?.text ?? '',
      child_side_clamped: whyNot(net, strokes[stroke] as Stroke, made, 1)?.text ?? '',
    })),
    foldPlan: verdict === 'feasible' ? foldPlan(answer, machineId) : null,
    preFoldPlan: rescued?.verdict === 'feasible' ? foldPlan(rescued, machineId) : null,
  };
}

const idsOf = ({ net, strokes }: Lattice, stroke: number): readonly string[] =>
  (strokes[stroke] as Stroke).folds.map((f) => (net.folds[f] as NetFold).id);

const exact = (n: bigint | undefined): number | string | null =>
  n === undefined ? null : n <= BigInt(Number.MAX_SAFE_INTEGER) ? Number(n) : String(n);

const factorial = (n: number): bigint => (n < 2 ? 1n : BigInt(n) * factorial(n - 1));

const foldPlan = ({ lattice, moves, isCheapest }: PlanAnswer, machine: string): FoldPlanResult => {
  let made = 0;
  const steps = moves.map((move, i) => {
    const step = stepOf(lattice, moves, i, made);
    made |= (lattice.strokes[move.stroke] as Stroke).bits;
    return step;
  });
  return {
    machine,
    feasible: true,
    cheapest: isCheapest,
    flips: steps.filter((s) => s.flip).length,
    steps,
  };
};

/** @param at number of the move; `made` is the state before it, as bits */
export function stepOf(
  lattice: Lattice,
  moves: readonly Move[],
  at: number,
  made: number,
): StepResult {
  const { net, strokes } = lattice;
  const last = moves[at - 1];
  const { stroke, placement } = moves[at] as Move;
  const made1 = strokes[stroke] as Stroke;
  const orientation = orientationOf(net, made1, placement);
  const before =
    last === undefined
      ? undefined
      : orientationOf(net, strokes[last.stroke] as Stroke, last.placement);
  const ids = idsOf(lattice, stroke);
  const inTwo = inTwoOf(lattice, moves, at);
  const first = net.folds[made1.folds[0] as number] as NetFold;
  return {
    bend: ids.length === 1 ? (ids[0] as string) : ids,
    clampedPanel: net.panels[first.panels[placement]]?.id ?? '',
    clampedSide: placement === 0 ? 'parent' : 'child',
    flip: before === undefined ? !first.up : isFlip(before, orientation),
    turnDeg: before === undefined ? 0 : turnDeg(before, orientation),
    stopAtDeg: made1.rules.swingDeg,
    stopMm: orientation.stopMm,
    fingersMm: (made1.tools(made, placement, made1.taken(made, placement)) ?? []).map(
      (b) => b.widthsMm,
    ),
    ...(inTwo !== undefined && { inTwo }),
  };
}

const inTwoOf = (
  { net, strokes }: Lattice,
  moves: readonly Move[],
  at: number,
): InTwo | undefined => {
  const own = strokes[moves[at]?.stroke ?? -1] as Stroke;
  const fold = own.folds[0] as number;
  if (net.preFolds?.some((p) => p.fold === fold) !== true) return undefined;
  const other = moves.findIndex((m, i) => i !== at && strokes[m.stroke]?.folds.includes(fold));
  return {
    stroke: own.after === 0 ? 1 : 2,
    keepsDeg: bentFold(net, own).angleDeg,
    otherStep: other + 1,
  };
};
