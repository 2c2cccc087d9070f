import type { Machine } from '../../model/machine.ts';
import type { FoldNet } from '../machines/net.ts';
import { doBlock, findBlockingSet } from './blocking-set.ts';
import { BudgetSpent, findOrder, latticeOf } from './lattice.ts';

/** Budget for each thing tried: enough for parts of a dozen folds, and soon over. */
const BUDGET = 500_000;

/** What is left for all that is tried for one part; it is counted down. */
export interface Allowance {
  left: number;
}

/**
 * All that may be tried for one part: some seconds. What was not tried by then is not suggested.
 */
export const allowance = (): Allowance => ({ left: 4_000_000 });

/** A try costs at least this for each of the part's folds, for its strokes have to be laid out. */
const PER_FOLD = 2_000;

/**
 * Folds that blocked each other as a part of the same folds was last asked for, by the names of all
 * its folds: a part of another size, or on another machine, is mostly blocked by the same.
 */
export type LastBlocked = Map<string, readonly number[]>;

/** Whether there is an order; one that is not found within the budget counts as none. */
export const canFold = (
  net: FoldNet,
  machine: Machine,
  allowed: Allowance,
  lastBlocked: LastBlocked = new Map(),
): boolean => {
  if (allowed.left <= 0) return false;
  const names = net.folds.map(({ id }) => id).join();
  const suspects = lastBlocked.get(names);
  if (suspects !== undefined) {
    const { yes, spent } = doBlock(net, machine, suspects);
    allowed.left -= spent;
    if (yes) return false;
  }
  const lattice = latticeOf(net, machine, Math.min(BUDGET, allowed.left));
  try {
    // A few folds that block each other are found sooner than that there is no order of all.
    const blockingSet = findBlockingSet(lattice);
    if (blockingSet !== undefined) lastBlocked.set(names, blockingSet);
    return blockingSet === undefined && findOrder(lattice) !== undefined;
  } catch (error) {
    if (error instanceof BudgetSpent) return false;
    throw error;
  } finally {
    allowed.left -= lattice.spent() + PER_FOLD * net.folds.length;
  }
};
