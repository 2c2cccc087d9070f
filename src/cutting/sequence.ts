import { NOISE_MM } from '../geometry/tolerance.ts';

/** What an order of pieces is judged by; pieces are numbers from 0. */
export interface Sequencing {
  readonly count: number;
  /** The pieces that lie in holes of each, and come before it. */
  readonly inside: readonly (readonly number[])[];
  /** Smaller classes come first, as far as neighbours allow. */
  readonly sizeClass: readonly number[];
  readonly areNeighbours: (a: number, b: number) => boolean;
  /** From the end of one piece, or from 0,0, to the start of another, mm. */
  readonly travel: (from: number | undefined, to: number) => number;
}

/** What an order costs, the most important first. */
interface Cost {
  readonly inARow: number;
  /** Pieces that come behind a larger one, each by how many classes it does. */
  readonly behind: number;
  readonly travelMm: number;
}

/** An order is bettered no more often than this. */
const MOST_ROUNDS = 10;
/** With more pieces, runs of at most this length are moved. */
const MOST_MOVED = 12;
/** Above this number of pieces the order is left as it was found: it takes long, and gains little. */
const MOST_PIECES = 100;

/**
 * An order of pieces made better by moving runs of it elsewhere, as long as something is gained:
 * fewer neighbours in a row, then fewer small pieces behind large ones, then less travel. What lies
 * in holes stays before what it lies in.
 */
export const improved = (start: readonly number[], sequencing: Sequencing): readonly number[] => {
  if (start.length > MOST_PIECES) return start;
  let best = start;
  let cost = costOf(best, sequencing);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const before = cost;
    for (const order of moves(best.length, cost.inARow > 0)) {
      const next = withMove(best, order);
      if (!isAllowed(next, sequencing)) continue;
      const nextCost = costOf(next, sequencing);
      if (isBetter(nextCost, cost)) [best, cost] = [next, nextCost];
    }
    if (!isBetter(cost, before)) return best;
  }
  return best;
};

/** A run from `from` up to `to` goes behind what ends at `until`. */
interface Move {
  readonly from: number;
  readonly to: number;
  readonly until: number;
}

function* moves(count: number, isHot: boolean): Generator<Move> {
  const most = isHot ? Math.min(count, MOST_MOVED) : 1;
  for (let from = 0; from < count; from++)
    for (let to = from + 1; to <= Math.min(count, from + most); to++)
      for (let until = to + 1; until <= count; until++) yield { from, to, until };
}

const withMove = (order: readonly number[], { from, to, until }: Move): number[] => [
  ...order.slice(0, from),
  ...order.slice(to, until),
  ...order.slice(from, to),
  ...order.slice(until),
];

const isAllowed = (order: readonly number[], { inside }: Sequencing): boolean => {
  const done = new Set<number>();
  return order.every((i) => {
    done.add(i);
    return (inside[i] as readonly number[]).every((k) => done.has(k));
  });
};

const costOf = (
  order: readonly number[],
  { areNeighbours, sizeClass, travel }: Sequencing,
): Cost => {
  let [inARow, behind, travelMm, largest] = [0, 0, 0, -Infinity];
  order.forEach((i, k) => {
    const last = order[k - 1];
    const size = sizeClass[i] as number;
    if (last !== undefined && areNeighbours(last, i)) inARow += 1;
    behind += Math.max(0, largest - size);
    largest = Math.max(largest, size);
    travelMm += travel(last, i);
  });
  return { inARow, behind: Number.isFinite(behind) ? behind : 0, travelMm };
};

const isBetter = (a: Cost, b: Cost): boolean =>
  a.inARow !== b.inARow
    ? a.inARow < b.inARow
    : a.behind !== b.behind
      ? a.behind < b.behind
      : a.travelMm < b.travelMm - NOISE_MM;
