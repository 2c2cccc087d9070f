import type { Machine } from '../../model/machine.ts';
import type { FoldNet } from '../machines/net.ts';
import { findBlockingSet } from './blocking-set.ts';
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

/** Whether there is an order; one that is not found within the budget counts as none. */
export const canFold = (net: FoldNet, machine: Machine, allowed: Allowance): boolean => {
  if (allowed.left <= 0) return false;
  const lattice = latticeOf(net, machine, Math.min(BUDGET, allowed.left));
  try {
    // A few folds that block each other are found sooner than that there is no order of all.
    return findBlockingSet(lattice) === undefined && findOrder(lattice) !== undefined;
  } catch (error) {
    if (error instanceof BudgetSpent) return false;
    throw error;
  } finally {
    allowed.left -= lattice.spent() + PER_FOLD * net.folds.length;
  }
};
