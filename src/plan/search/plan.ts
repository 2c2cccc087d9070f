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
  /** The most orders that are listed. */
  readonly mostOrders?: number;
  /** Whether strokes that cannot be made on the way are looked for even where there is an order. */
  readonly explain?: boolean;
  /** Whether a part without an order is not asked for the reason. */
  readonly onlyOrder?: boolean;
  /** What the search may spend on each of its questions before it says 'not decided'. */
  readonly budget?: number;
}

/** The answer. Strokes are numbers of `lattice.strokes`; states are the folds made, as bits. */
export interface PlanAnswer {
  readonly lattice: Lattice;
  readonly verdict: 'feasible' | 'impossible' | 'not decided';
  /** The order to fold in; empty unless feasible. */
  readonly moves: readonly Move[];
  /** Whether no order is cheaper; false when the search for a cheaper one was broken off. */
  readonly isCheapest: boolean;
  /** Orders, in the order of the strokes. */
  readonly orders: readonly (readonly number[])[];
  /** `undefined` when not asked for, or not decided. */
  readonly orderCount: bigint | undefined;
  /** How many orders there would be if nothing stood in the way; `undefined` as above. */
  readonly totalCount: bigint | undefined;
  readonly deadEnds: DeadEnds;
  /** Numbers of folds that block each other in every order, where a few alone do. */
  readonly blockingSet: readonly number[] | undefined;
}

/**
 * A part of up to this many folds has dead ends looked for in all its states; a larger one in a
 * few.
 */
const FEW_FOLDS = 10;
const FEW_STATES = 256;

const MOST_ORDERS = 100;

const NO_DEAD_ENDS: DeadEnds = { ends: [], mostFolds: undefined };

/**
 * Budget for the proof that no order is cheaper. It is smaller than the whole, because knowing that
 * a part can be folded is worth more.
 */
const CHEAPEST_BUDGET = 7_000_000;

/** The same for a part of so many folds that the proof is hardly ever found. */
const MANY_FOLDS = 20;
const MANY_BUDGET = 1_000_000;

/**
 * Searches for orders of folding a part on a machine. A search backwards from the finished part,
 * which remembers dead states, decides whether there is any; where no fold can be the last one,
 * that is seen at once. A state's shape depends only on which folds are made. No fold made early is
 * taken to help or hinder for good, because feasibility is not monotone.
 */
export function planFolds(
  net: FoldNet,
  machine: Machine,
  {
    count = false,
    mostOrders = MOST_ORDERS,
    explain = true,
    onlyOrder = false,
    budget = BUDGET,
  }: PlanQuestion = {},
): PlanAnswer {
  const lattice = latticeOf(net, machine);
  const within = <T>(ask: () => T, most = budget): T | 'not decided' => decided(lattice, most, ask);
  const blockingSet = onlyOrder ? undefined : findBlockingSet(lattice);
  const found = blockingSet === undefined ? within(() => findOrder(lattice)) : undefined;
  const isFeasible = Array.isArray(found);
  const cheapest = isFeasible
    ? within(
        () => cheapestOrder(lattice),
        Math.min(budget, net.folds.length > MANY_FOLDS ? MANY_BUDGET : CHEAPEST_BUDGET),
      )
    : undefined;
  const orders = isFeasible && mostOrders > 0 ? within(() => listOrders(lattice, mostOrders)) : [];
  const counted = <T>(ask: () => T): T | undefined => {
    const answer = count ? within(ask) : 'not decided';
    return answer === 'not decided' ? undefined : answer;
  };
  const dead =
    onlyOrder || (isFeasible && !explain) ? NO_DEAD_ENDS : deadEndsWithin(lattice, budget);
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
    deadEnds: dead,
    blockingSet,
  };
}

const deadEndsWithin = (lattice: Lattice, budget: number): DeadEnds => {
  lattice.allow(budget);
  return deadEnds(lattice, lattice.net.folds.length <= FEW_FOLDS ? 1 << FEW_FOLDS : FEW_STATES);
};

/** The answer to a question, unless it takes more of the budget than `most`. */
const decided = <T>(lattice: Lattice, most: number, ask: () => T): T | 'not decided' => {
  lattice.allow(most);
  try {
    return ask();
  } catch (error) {
    if (error instanceof BudgetSpent) return 'not decided';
    throw error;
  }
};

/**
 * The moves of an order; the order found first, where the budget does not even reach for a cheap
 * one.
 */
const movesOf = (
  lattice: Lattice,
  found: readonly number[],
  cheap: readonly Move[] | 'not decided',
): readonly Move[] => {
  if (cheap !== 'not decided') return cheap;
  // An order that is known needs one look-up for each of its strokes.
  lattice.allow(Infinity);
  let made = 0;
  return found.map((stroke): Move => {
    const placement = lattice.isClear(stroke, made, 0) ? 0 : 1;
    made |= lattice.strokes[stroke]?.bits ?? 0;
    return { stroke, placement };
  });
};
