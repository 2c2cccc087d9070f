import { hasSmallGrip, tips } from './cost.ts';
import { bitCount } from '../machines/bits.ts';
import { ALL, type Effort } from './conflicts.ts';
import type { Placement } from '../machines/placed-part.ts';
import type { FoldNet } from '../machines/net.ts';
import { bitsOf } from '../machines/pre-fold.ts';
import type { Stroke } from './stroke.ts';
import { strokesOf } from './strokes.ts';
import type { Machine } from '../../model/machine.ts';

/**
 * The states of a part, which are the sets of folds made, as bits; a fold made in two strokes has
 * two bits. The shape of a state depends on nothing else, so whatever was learnt of a state holds
 * on every way to it.
 */
export interface Lattice {
  readonly net: FoldNet;
  readonly strokes: readonly Stroke[];
  /** The state with all folds made. */
  readonly full: number;
  /** Whether a stroke may be made from a state, with either side clamped. */
  readonly isOpen: (stroke: number, made: number) => boolean;
  /** The same with one particular side clamped. */
  readonly isClear: (stroke: number, made: number, placement: Placement) => boolean;
  /** Whether the part tips over when it is let go after such a stroke. */
  readonly isTipped: (stroke: number, made: number, placement: Placement) => boolean;
  /** Whether such a stroke holds the part by a small grip. */
  readonly isSmallGrip: (stroke: number, made: number, placement: Placement) => boolean;
  /** Whether any order leads from the flat blank to a state. */
  readonly canBeMade: (made: number) => boolean;
  /** Sets what the next question may spend. */
  readonly allow: (budget: number) => void;
  readonly spent: () => number;
}

/**
 * What the search may spend before it says 'not decided'. A stroke that is looked up counts one. A
 * stroke asked of a state for the first time, and a pair of bodies compared, count as much more as
 * they take longer.
 */
export const BUDGET = 10_000_000;
const PER_CONTACT = 20;

/** Thrown when the budget is spent, and caught where the answer is given. */
export class BudgetSpent extends Error {}

/**
 * Answers are remembered with a byte for each state for parts of up to this many folds; of larger
 * ones, those of the states that were asked for.
 */
const MOST_REMEMBERED = 20;

/** @param only folds, as bits, of which each stroke makes one at least; all strokes when left out */
export function latticeOf(net: FoldNet, machine: Machine, budget = BUDGET, only = ALL): Lattice {
  const effort: Effort = { contacts: 0 };
  const strokes = strokesOf(net, machine, effort, only);
  let [lookUps, asked] = [0, 0];
  const bits = bitsOf(net);
  const size = bits <= MOST_REMEMBERED ? 2 ** bits : 0;
  const known = strokes.map((): Uint8Array | undefined => undefined);
  const others = strokes.map(() => new Map<number, number>());
  const spent = (): number => lookUps + PER_CONTACT * (asked + effort.contacts);
  let allowed = budget;
  const find = (stroke: number, made: number): number => {
    lookUps += 1;
    if (spent() > allowed) throw new BudgetSpent();
    const table = size === 0 ? undefined : (known[stroke] ??= new Uint8Array(size));
    const found = table?.[made] ?? others[stroke]?.get(made) ?? 0;
    if (found !== 0) return found;
    asked += 1;
    const fresh = ask(net, strokes[stroke] as Stroke, made);
    if (table === undefined) others[stroke]?.set(made, fresh);
    else table[made] = fresh;
    return fresh;
  };
  const isOpen = (stroke: number, made: number): boolean => (find(stroke, made) & EITHER) !== 0;
  return {
    net,
    strokes,
    canBeMade: reachable(strokes, isOpen, size),
    full: 2 ** bits - 1,
    isOpen,
    isClear: (stroke, made, placement) => (find(stroke, made) & (1 << placement)) !== 0,
    isTipped: (stroke, made, placement) => (find(stroke, made) & (TIPS << placement)) !== 0,
    isSmallGrip: (stroke, made, placement) =>
      (find(stroke, made) & (SMALL_GRIP << placement)) !== 0,
    allow: (budget) => {
      allowed = spent() + budget;
    },
    spent,
  };
}

/** Remembers the states that can be made, and the dead ones. */
const reachable = (
  strokes: readonly Stroke[],
  isOpen: Lattice['isOpen'],
  size: number,
): Lattice['canBeMade'] => {
  const bytes = new Uint8Array(size);
  const others = new Map<number, boolean>();
  const canBeMade = (after: number): boolean => {
    if (after === 0) return true;
    const found = after < size ? bytes[after] : others.get(after);
    if (typeof found === 'boolean') return found;
    if (found === CAN || found === CANNOT) return found === CAN;
    const can = strokes.some(
      ({ bits }, s) =>
        (after & bits) === bits && isOpen(s, after ^ bits) && canBeMade(after ^ bits),
    );
    if (after < size) bytes[after] = can ? CAN : CANNOT;
    else others.set(after, can);
    return can;
  };
  return canBeMade;
};

const [CANNOT, CAN] = [1, 2];

const EITHER = 3;
const ASKED = 4;

/** One bit for each side that may be clamped, in the same order as those of `EITHER`. */
const TIPS = 8;
const SMALL_GRIP = 32;

const ask = (net: FoldNet, stroke: Stroke, made: number): number => {
  if ((made & stroke.after) !== stroke.after || !stroke.isInLine(made)) return ASKED;
  let answer = ASKED;
  // Both are found at once, because the places of the panels in this state are known now.
  for (const placement of [0, 1] as const)
    if (stroke.isClear(made, placement))
      answer |=
        (1 << placement) |
        (tips(net, stroke, placement, made) ? TIPS << placement : 0) |
        (hasSmallGrip(stroke, placement, made) ? SMALL_GRIP << placement : 0);
  return answer;
};

/**
 * Any order from the flat blank to the finished part, searched backwards from the finished part.
 */
export function findOrder(lattice: Lattice): readonly number[] | undefined {
  const { strokes, full, isOpen, canBeMade } = lattice;
  if (!canBeMade(full)) return undefined;
  const order: number[] = [];
  for (let after = full; after !== 0;) {
    const last = strokes.findIndex(
      ({ bits }, s) =>
        (after & bits) === bits && isOpen(s, after ^ bits) && canBeMade(after ^ bits),
    );
    order.unshift(last);
    after ^= (strokes[last] as Stroke).bits;
  }
  return order;
}

/**
 * How many orders of strokes lead to the finished part. Paths through the lattice are counted, so
 * that no order is looked at twice.
 */
export function countOrders(
  { strokes, full }: Lattice,
  isOpen: (stroke: number, made: number) => boolean,
): bigint {
  const ways = new Map<number, bigint>([[0, 1n]]);
  const waysTo = (after: number): bigint => {
    const known = ways.get(after);
    if (known !== undefined) return known;
    let sum = 0n;
    for (let s = 0; s < strokes.length; s++) {
      const { bits } = strokes[s] as Stroke;
      if ((after & bits) === bits && isOpen(s, after ^ bits)) sum += waysTo(after ^ bits);
    }
    ways.set(after, sum);
    return sum;
  };
  return waysTo(full);
}

/** Orders in the order of the strokes, up to `most` of them. */
export function listOrders(
  { strokes, full, isOpen }: Lattice,
  most: number,
): readonly (readonly number[])[] {
  const dead = new Set<number>();
  const found: (readonly number[])[] = [];
  const visit = (made: number, order: readonly number[]): void => {
    if (made === full) {
      found.push(order);
      return;
    }
    const before = found.length;
    for (let s = 0; s < strokes.length && found.length < most; s++) {
      const { bits } = strokes[s] as Stroke;
      if ((made & bits) === 0 && !dead.has(made | bits) && isOpen(s, made))
        visit(made | bits, [...order, s]);
    }
    if (found.length === before) dead.add(made);
  };
  visit(0, []);
  return found;
}

/** A stroke that cannot be made from a state that can be reached. */
export interface DeadEnd {
  readonly made: number;
  readonly stroke: number;
}

/**
 * Dead ends; `mostFolds` is the most folds that can be made, or `undefined` when not every state
 * was looked at.
 */
export interface DeadEnds {
  readonly ends: readonly DeadEnd[];
  readonly mostFolds: number | undefined;
}

/**
 * The strokes that cannot be made from states that can be reached, in the order in which a search
 * forwards finds them; those that it found by then, where the budget does not reach further.
 */
export function deadEnds({ strokes, isOpen }: Lattice, mostStates: number): DeadEnds {
  const ends: DeadEnd[] = [];
  const seen = new Set([0]);
  let mostFolds = 0;
  const visit = (made: number): void => {
    mostFolds = Math.max(mostFolds, bitCount(made));
    for (let s = 0; s < strokes.length && seen.size <= mostStates; s++) {
      const { bits, isInLine } = strokes[s] as Stroke;
      if ((made & bits) !== 0 || !isInLine(made)) continue;
      const next = made | bits;
      if (!isOpen(s, made)) ends.push({ made, stroke: s });
      else if (!seen.has(next)) {
        seen.add(next);
        visit(next);
      }
    }
  };
  try {
    visit(0);
  } catch (error) {
    if (!(error instanceof BudgetSpent)) throw error;
    return { ends, mostFolds: undefined };
  }
  return { ends, mostFolds: seen.size <= mostStates ? mostFolds : undefined };
}
