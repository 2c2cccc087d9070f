import type { Machine } from '../../model/machine.ts';
import type { FoldNet } from '../machines/net.ts';
import { findBlockingSet } from './blocking-set.ts';
import { BudgetSpent, findOrder, latticeOf } from './lattice.ts';

/** Budget for each thing tried: enough for parts of a dozen folds, and soon over. */
const BUDGET = 500_000;

/** Whether there is an order; one that is not found within the budget counts as none. */
export const canFold = (net: FoldNet, machine: Machine, budget = BUDGET): boolean => {
  try {
    const lattice = latticeOf(net, machine, budget);
    // A few folds that block each other are found sooner than that there is no order of all.
    return findBlockingSet(lattice) === undefined && findOrder(lattice) !== undefined;
  } catch (error) {
    if (error instanceof BudgetSpent) return false;
    throw error;
  }
};
