import { distance, type Vec2 } from '../geometry/vec2.ts';
import { areaOf, type CutLine, type CutPiece, liesWithin, startOf } from './cut-piece.ts';
import { areLongNeighbours } from './long-neighbours.ts';
import { improved, type Sequencing } from './sequence.ts';

/** The cuts of a sheet in their order. */
export interface CutOrder {
  /** Places of the pieces among those given, in the order in which they are cut. */
  readonly pieces: readonly number[];
  /** Every cut once, the inner ones of a piece before its outline. */
  readonly cuts: readonly CutLine[];
  /**
   * Long neighbours that are cut one after the other, on sheet that warps: no order was found with
   * fewer of them.
   */
  readonly inARow: readonly (readonly [number, number])[];
  /** The way between cuts, from the sheet's own 0,0. */
  readonly travelMm: number;
}

/**
 * The order in which pieces are cut out of a sheet, by what comes first in this list:
 *
 * 1. What lies in a hole of another piece is cut before that piece, since the metal that holds it
 *    falls out with the hole; holes and all inner cuts of a piece before its outline, since it may
 *    tip or shift once it is free.
 * 2. Where the sheet warps (`mayWarp`), no long neighbours in a row as long as there is another
 *    choice, so that the heat of one is gone when the other is cut.
 * 3. Small pieces before large ones, as the sheet grows weak with each large one; sizes within a
 *    factor of four count as equal.
 * 4. The least way between cuts.
 */
export const cutOrder = (pieces: readonly CutPiece[], mayWarp: boolean): CutOrder => {
  const inner = pieces.map(innerOrder);
  const sequencing = sequencingOf(pieces, inner, mayWarp);
  const order = improved(inTurn(sequencing), sequencing);
  const cuts = order.flatMap((i) => [
    ...(inner[i] as readonly CutLine[]),
    (pieces[i] as CutPiece).outline,
  ]);
  return {
    pieces: order,
    cuts,
    inARow: order
      .slice(1)
      .map((i, k) => [order[k] as number, i] as const)
      .filter(([a, b]) => sequencing.areNeighbours(a, b)),
    travelMm: travelOf(cuts),
  };
};

/** The way from the end of each cut to the start of the next; a closed cut ends where it starts. */
const travelOf = (cuts: readonly CutLine[]): number => {
  let [sum, at]: [number, Vec2] = [0, [0, 0]];
  for (const cut of cuts) {
    sum += distance(at, startOf(cut));
    at = startOf(cut);
  }
  return sum;
};

/** Sizes of one class differ by a factor of less than this. */
const CLASS = 4;

const sizeClass = (line: CutLine): number =>
  Math.floor(Math.log(areaOf(line) + 1) / Math.log(CLASS));

/** The inner cuts of a piece: small before large, then the nearest, from where its outline begins. */
const innerOrder = ({ outline, inner }: CutPiece): readonly CutLine[] => {
  const left = [...inner];
  const ordered: CutLine[] = [];
  let at = startOf(outline);
  while (left.length > 0) {
    const smallest = Math.min(...left.map(sizeClass));
    const next = nearest(
      left.filter((line) => sizeClass(line) === smallest),
      (line) => distance(at, startOf(line)),
    );
    left.splice(left.indexOf(next), 1);
    ordered.push(next);
    at = startOf(next);
  }
  return ordered;
};

/** The one that costs least, the first of equals. There is at least one. */
const nearest = <T>(all: readonly T[], costOf: (one: T) => number): T =>
  all
    .map((one) => ({ one, cost: costOf(one) }))
    .reduce((best, other) => (other.cost < best.cost ? other : best)).one;

const sequencingOf = (
  pieces: readonly CutPiece[],
  inner: readonly (readonly CutLine[])[],
  mayWarp: boolean,
): Sequencing => {
  const inside = pieces.map((piece, i) =>
    pieces.flatMap((other, k) =>
      k !== i && piece.inner.some((hole) => liesWithin(other, hole)) ? [k] : [],
    ),
  );
  const near = pieces.map((a, i) =>
    pieces.map((b, k) => mayWarp && k < i && areLongNeighbours(a.outline.loop, b.outline.loop)),
  );
  const first = pieces.map(({ outline }, i) => startOf(inner[i]?.[0] ?? outline));
  const last = pieces.map(({ outline }) => startOf(outline));
  return {
    count: pieces.length,
    inside,
    sizeClass: pieces.map(({ outline }) => sizeClass(outline)),
    areNeighbours: (a, b) => near[Math.max(a, b)]?.[Math.min(a, b)] === true,
    travel: (from, to) =>
      distance(from === undefined ? [0, 0] : (last[from] as Vec2), first[to] as Vec2),
  };
};

/**
 * One piece after the other, of those whose holes are empty: no neighbour of the last one, then the
 * smallest, then the one with most neighbours, which is hardest to place later, then the nearest.
 */
const inTurn = (sequencing: Sequencing): number[] => {
  const { count, inside, sizeClass: classes, areNeighbours, travel } = sequencing;
  const left = new Set(upTo(count));
  const order: number[] = [];
  const neighbours = upTo(count).map((i) =>
    upTo(count).filter((k) => k !== i && areNeighbours(i, k)),
  );
  const neighboursLeft = (i: number): number =>
    (neighbours[i] as readonly number[]).filter((k) => left.has(k)).length;
  while (left.size > 0) {
    const last = order.at(-1);
    const free = [...left].filter((i) =>
      (inside[i] as readonly number[]).every((k) => !left.has(k)),
    );
    const costs = free.map((i) => ({
      i,
      cost: [
        last !== undefined && areNeighbours(last, i) ? 1 : 0,
        classes[i] as number,
        -neighboursLeft(i),
        travel(last, i),
      ],
    }));
    const { i } = costs.reduce((best, other) => (isLess(other.cost, best.cost) ? other : best));
    left.delete(i);
    order.push(i);
  }
  return order;
};

/** The numbers from 0. */
const upTo = (count: number): number[] => Array.from({ length: count }, (_, i) => i);

/** Whether the first of two lists of costs is less, by the first cost in which they differ. */
const isLess = (a: readonly number[], b: readonly number[]): boolean => {
  const at = a.findIndex((cost, i) => cost !== b[i]);
  return at >= 0 && (a[at] as number) < (b[at] as number);
};
