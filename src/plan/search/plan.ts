import type { Machine } from '../../model/machine.ts';
import { cheapestOrder, cheapOrder, type Move } from './cheapest.ts';
import {
  BUDGET,
  BudgetSpent,
  countOrders,
  type DeadEnds,
  deadEnds,
  findOrder,
  type Lattice,
  latticeOf,
  listOrders,
} from './lattice.ts';
import { findBlockingSet } from './blocking-set.ts';
import type { FoldNet } from '../machines/net.ts';

export interface PlanQuestion {
  /** Whether the orders are counted. */
  readonly count?: boolean;
  /** How many orders are listed at most. */
  readonly mostOrders?: number;
  /** Whether what cannot be made on the way is looked for even where there is an order. */
  readonly explain?: boolean;
  /** What the search may spend before it says 'not decided', for each of its questions. */
  readonly budget?: number;
}

/** What came out. Strokes are numbers of `lattice.strokes`; states are folds made, as bits. */
export interface PlanAnswer {
  readonly lattice: Lattice;
  readonly verdict: 'feasible' | 'impossible' | 'not decided';
  /** The order to fold in; empty unless feasible. */
  readonly moves: readonly Move[];
  /** Whether no order is cheaper; otherwise the search for a cheaper one was broken off. */
  readonly isCheapest: boolean;
  /** In the order of the strokes. */
  readonly orders: readonly (readonly number[])[];
  /** `undefined` when not asked for, or not decided. */
  readonly orderCount: bigint | undefined;
  /** How many orders there were if nothing stood in the way; `undefined` as above. */
  readonly totalCount: bigint | undefined;
  readonly deadEnds: DeadEnds;
  /** Numbers of folds that block each other in every order, where a few alone do. */
  readonly blockingSet: readonly number[] | undefined;
}

/**
 * Dead ends are looked for among all states of a part of up to so many folds, and among a few of
 * larger ones.
 */
const FEW_FOLDS = 10;
const FEW_STATES = 256;

const MOST_ORDERS = 100;

const NO_DEAD_ENDS: DeadEnds = { ends: [], mostFolds: undefined };

/** That a part can be folded is worth more than that no order is cheaper. */
const CHEAPEST_BUDGET = 7_000_000;

/**
 * Looks for orders of folding a part on a machine. Whether there is any is decided by a search
 * backwards from the finished part that remembers dead states: where no fold can be the last one,
 * that is seen at once. A state's shape depends only on which folds are made, and no fold made
 * early is taken for a help or a hindrance for good, since feasibility is not monotone.
 */
export function planFolds(
  net: FoldNet,
  machine: Machine,
  { count = false, mostOrders = MOST_ORDERS, explain = true, budget = BUDGET }: PlanQuestion = {},
): PlanAnswer {
  const lattice = latticeOf(net, machine);
  const within = <T>(ask: () => T, most = budget): T | 'not decided' => {
    lattice.allow(most);
    try {
      return ask();
    } catch (error) {
      if (error instanceof BudgetSpent) return 'not decided';
      throw error;
    }
  };
  const blockingSet = findBlockingSet(lattice);
  const found = blockingSet === undefined ? within(() => findOrder(lattice)) : undefined;
  const isFeasible = Array.isArray(found);
  const cheapest = isFeasible
    ? within(() => cheapestOrder(lattice), Math.min(budget, CHEAPEST_BUDGET))
    : undefined;
  const orders = isFeasible && mostOrders > 0 ? within(() => listOrders(lattice, mostOrders)) : [];
  const counted = <T>(ask: () => T): T | undefined => {
    const answer = count ? within(ask) : 'not decided';
    return answer === 'not decided' ? undefined : answer;
  };
  const dead =
    isFeasible && !explain
      ? NO_DEAD_ENDS
      : within(() =>
          deadEnds(lattice, net.folds.length <= FEW_FOLDS ? 1 << FEW_FOLDS : FEW_STATES),
        );
  return {
    lattice,
    verdict: found === 'not decided' ? found : found === undefined ? 'impossible' : 'feasible',
    moves: Array.isArray(cheapest)
      ? cheapest
      : isFeasible
        ? movesOf(
            lattice,
            found,
            within(() => cheapOrder(lattice)),
          )
        : [],
    isCheapest: Array.isArray(cheapest),
    orders: orders === 'not decided' ? [] : orders,
    orderCount: found === undefined ? 0n : counted(() => countOrders(lattice, lattice.isOpen)),
    totalCount: counted(() =>
      countOrders(lattice, (stroke, made) => lattice.strokes[stroke]?.isInLine(made) === true),
    ),
    deadEnds: dead === 'not decided' ? NO_DEAD_ENDS : dead,
    blockingSet,
  };
}

/** Where the budget does not even reach for a cheap order, the one found first. */
const movesOf = (
  lattice: Lattice,
  found: readonly number[],
  cheap: readonly Move[] | 'not decided',
): readonly Move[] => {
  if (cheap !== 'not decided') return cheap;
  // One look-up for each stroke of an order that is known.
  lattice.allow(Infinity);
  let made = 0;
  return found.map((stroke): Move => {
    const placement = lattice.isClear(stroke, made, 0) ? 0 : 1;
    made |= lattice.strokes[stroke]?.bits ?? 0;
    return { stroke, placement };
  });
};
