import type { FoldPlan, Rescue } from '../../contract/fold-plan.ts';
import type { Machine } from '../../model/machine.ts';
import { foldIdsOf, type FoldNet } from '../machines/net.ts';
import { finishFrom } from '../search/finish.ts';
import { BudgetSpent, type Lattice, latticeOf } from '../search/lattice.ts';
import type { PlanAnswer } from '../search/plan.ts';
import { blockedStrokes } from './blocked-strokes.ts';
import { beyondCapacity } from './capacity.ts';
import { allSteps, MOST_BLOCKED, MOST_FOLDS, netFor, setUpFor, setUpsOf } from './part-plan.ts';
import { withoutFolds } from './pieces.ts';
import type { PartToFold } from './plan-steps.ts';
import { restsOn } from './rests-on.ts';
import { bendLengthMm, bendNamed } from './step-notes.ts';

/** The most folds that are opened, and at which a part is cut, to rescue it; and ways that are told. */
const MOST_OPENED = 3;
const MOST_CUT = 2;
const MOST_RESCUES = 4;

/**
 * How a part is finished of which some folds are made already, on the first machine that does, with
 * any of its tools; where none does, what stands in the way on the first.
 */
export function finishOnShop(
  fold: PartToFold,
  machines: readonly Machine[],
  done: readonly string[],
  budget: number,
): FoldPlan | undefined {
  let first: FoldPlan | undefined;
  for (const given of machines) {
    const usual = setUpFor(fold, given);
    for (const machine of [usual, ...setUpsOf(usual)]) {
      const plan = finishOn(fold, machine, done, budget);
      if (plan.feasible === true) return plan;
      first ??= plan;
    }
  }
  return first;
}

function finishOn(
  fold: PartToFold,
  machine: Machine,
  done: readonly string[],
  budget: number,
): FoldPlan {
  const { net, byHand } = netFor(fold, machine);
  const none = {
    machine: machine.id,
    steps: [],
    blockedBy: [],
    blockEachOther: [],
    restsOn: restsOn(machine, []),
  };
  const made = stateOf(net, done);
  if (made === undefined || net.folds.length > MOST_FOLDS) return { ...none, feasible: null };
  const tooMuch = beyondCapacity(fold, machine).filter(({ bend }) => !done.includes(bend));
  if (tooMuch.length > 0) {
    const nowhere = { after: done, touches: null, atDeg: null, suggestion: null };
    return {
      ...none,
      feasible: false,
      blockedBy: tooMuch.map(({ bend, reason }) => ({ ...nowhere, bend, reason })),
    };
  }
  try {
    const answer = answerFrom(latticeOf(net, machine, budget), made);
    if (answer.verdict === 'impossible')
      return {
        ...none,
        feasible: false,
        blockedBy: blockedStrokes(answer)
          .map(({ blocked }) => blocked)
          .slice(0, MOST_BLOCKED),
      };
    const left = byHand.filter(({ id }) => !done.includes(id));
    const steps = allSteps(fold, machine, answer, left, made);
    return { ...none, feasible: true, steps, restsOn: restsOn(machine, steps) };
  } catch (error) {
    if (error instanceof BudgetSpent) return { ...none, feasible: null };
    throw error;
  }
}

/** The answer for the folds that are left, in the form of one for all of them. */
const answerFrom = (lattice: Lattice, made: number): PlanAnswer => {
  const { moves, deadEnds } = finishFrom(lattice, made);
  return {
    lattice,
    verdict: moves === undefined ? 'impossible' : 'feasible',
    moves: moves ?? [],
    isCheapest: moves !== undefined,
    orders: [],
    orderCount: undefined,
    totalCount: undefined,
    deadEnds: { ends: deadEnds, mostFolds: undefined },
    blockingSet: undefined,
  };
};

/** The folds made, as bits; `undefined` where a row of folds that is made as one is made in part. */
const stateOf = ({ folds }: FoldNet, done: readonly string[]): number | undefined => {
  let state = 0;
  for (const [bit, fold] of folds.entries()) {
    const ids = foldIdsOf(fold);
    const made = ids.filter((id) => done.includes(id));
    if (made.length > 0 && made.length < ids.length) return undefined;
    if (made.length > 0) state |= 1 << bit;
  }
  return state;
};

/**
 * What rescues a half folded part that no order finishes: as few folds as do opened again, or as few
 * as do at which it is cut apart and welded in the end. Each was tried; the smallest are first.
 */
export function rescuesOf(
  fold: PartToFold,
  machines: readonly Machine[],
  done: readonly string[],
  budget: number,
): readonly Rescue[] {
  const finish = (piece: PartToFold, made: readonly string[]): FoldPlan | null | undefined => {
    if (piece.part.folds.every(({ id }) => made.includes(id))) return null;
    const plan = finishOnShop(piece, machines, made, budget);
    return plan?.feasible === true ? plan : undefined;
  };
  const opened = smallest(fold, done, MOST_OPENED, (open): Rescue | undefined => {
    const plan = finish(
      fold,
      done.filter((id) => !open.includes(id)),
    );
    return plan === undefined ? undefined : { open, cut: [], ...orderOf([plan]) };
  });
  const ids = fold.part.folds.map(({ id }) => id);
  const cut = smallest(fold, ids, MOST_CUT, (at): Rescue | undefined => {
    const plans = withoutFolds(fold, at).map((piece) =>
      finish(
        piece,
        done.filter((id) => piece.part.folds.some((f) => f.id === id)),
      ),
    );
    return plans.every((plan) => plan !== undefined)
      ? { open: [], cut: at, ...orderOf(plans) }
      : undefined;
  });
  return [...opened, ...cut]
    .toSorted((a, b) => a.open.length + a.cut.length - (b.open.length + b.cut.length))
    .slice(0, MOST_RESCUES);
}

const orderOf = (plans: readonly (FoldPlan | null)[]): Pick<Rescue, 'machines' | 'order'> => ({
  machines: [...new Set(plans.flatMap((plan) => (plan === null ? [] : [plan.machine])))],
  order: plans.flatMap((plan) => plan?.steps.map(({ bend }) => bend) ?? []),
});

/** What the smallest sets of folds that do give, those of the shortest folds first. */
function smallest(
  { flat }: PartToFold,
  folds: readonly string[],
  most: number,
  tried: (set: readonly string[]) => Rescue | undefined,
): readonly Rescue[] {
  const longOf = (set: readonly string[]): number =>
    set.reduce((sum, id) => sum + bendLengthMm(bendNamed(flat, id)), 0);
  for (let size = 1; size <= most; size++) {
    const found = setsOf(folds, size)
      .toSorted((a, b) => longOf(a) - longOf(b))
      .flatMap((set) => tried(set) ?? []);
    if (found.length > 0) return found;
  }
  return [];
}

/** All sets of so many of these. */
export const setsOf = <T>(of: readonly T[], size: number): (readonly T[])[] =>
  size === 0
    ? [[]]
    : of.flatMap((first, i) =>
        setsOf(of.slice(i + 1), size - 1).map((others) => [first, ...others]),
      );
