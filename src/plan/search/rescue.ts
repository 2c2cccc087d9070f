import type { Machine } from '../../model/machine.ts';
import { doBlock } from './blocking-set.ts';
import { BudgetSpent, findOrder, latticeOf } from './lattice.ts';
import type { FoldNet } from '../machines/net.ts';
import { type PlanAnswer, planFolds } from './plan.ts';
import { bitsOf, withPreFolds } from '../machines/pre-fold.ts';

/** A fold made in two strokes is first made to this share of its angle. */
export const PRE_FOLD_SHARE = 0.5;

/** The most folds of a part that are made in two strokes. */
const MOST_PRE_FOLDS = 2;

/** What the search may spend, which is a matter of seconds. */
export const RESCUE_BUDGET = 1_000_000;

/** The most bits of a state, because states are bits of a number. */
const MOST_BITS = 30;

/**
 * An order for a part that has none when every fold is made at one stroke: one fold, or else two,
 * is made to half its angle first and to the end later. `undefined` when none is found within the
 * budget. That proves only that no such half-way fold helps; other angles, more such folds, and
 * folds in more than two strokes are not tried.
 *
 * @param blockingSet folds that block each other whatever is done with the others: one of them has
 * to be made in two, and so that they no longer do, which is seen before all orders are tried
 */
export function rescueByPreFolds(
  net: FoldNet,
  machine: Machine,
  {
    blockingSet,
    budget,
  }: { readonly blockingSet: readonly number[] | undefined; readonly budget: number },
): PlanAnswer | undefined {
  let left = budget;
  const blocked = new Map<string, boolean>();
  const staysBlocked = (set: readonly number[], folds: readonly number[]): boolean => {
    // How the others are made does not matter to those of the set.
    const inSet = folds.filter((f) => set.includes(f));
    const known = blocked.get(inSet.join());
    if (known !== undefined) return known;
    const { yes, spent } = doBlock(withPreFolds(net, inSet, PRE_FOLD_SHARE), machine, set);
    left -= spent;
    blocked.set(inSet.join(), yes);
    return yes;
  };
  for (const folds of choices(net.folds.length, blockingSet)) {
    const tried = withPreFolds(net, folds, PRE_FOLD_SHARE);
    if (left <= 0 || bitsOf(tried) > MOST_BITS) return undefined;
    if (blockingSet !== undefined && staysBlocked(blockingSet, folds)) continue;
    const { works, spent } = tryOrder(tried, machine, left);
    left -= spent;
    if (works)
      return planFolds(tried, machine, {
        mostOrders: 0,
        explain: false,
        onlyOrder: true,
        budget,
      });
  }
  return undefined;
}

function tryOrder(
  net: FoldNet,
  machine: Machine,
  budget: number,
): { readonly works: boolean; readonly spent: number } {
  const lattice = latticeOf(net, machine, budget);
  try {
    return { works: findOrder(lattice) !== undefined, spent: lattice.spent() };
  } catch (error) {
    if (error instanceof BudgetSpent) return { works: false, spent: budget };
    throw error;
  }
}

/** Each fold alone, then each pair. */
function choices(folds: number, blockingSet: readonly number[] | undefined): number[][] {
  const all = Array.from({ length: folds }, (_, i) => [i]);
  const sets = [...all];
  for (let size = 2, last = all; size <= MOST_PRE_FOLDS; size++) {
    last = last.flatMap((set) =>
      all.slice((set.at(-1) as number) + 1).map(([i]) => [...set, i as number]),
    );
    sets.push(...last);
  }
  return blockingSet === undefined
    ? sets
    : sets.filter((set) => set.some((f) => blockingSet.includes(f)));
}
