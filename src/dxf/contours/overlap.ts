import { type Piece, partBulge, pointOn, shareAt } from '../../geometry/piece.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import { pieceLength } from '../../geometry/piece-length.ts';
import { forNeighbours } from './neighbours.ts';

/**
 * Lines that lie no farther apart than this are cut as one: it is a tenth of a kerf, and as much as
 * programs make a copy differ.
 */
export const CUT_AS_ONE_MM = 0.005;
/** Two pieces with a shorter common stretch than this only touch, mm. */
const SHORTEST_SHARED_MM = 0.02;

/**
 * The place of a point on a piece, as a share of its length; undefined when it is off the piece by
 * more than `CUT_AS_ONE_MM`.
 */
export const shareOf = (p: Piece, at: Vec2): number | undefined => shareAt(p, at, CUT_AS_ONE_MM);

/** A stretch that two pieces have in common, as shares of the second. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** The stretches of `b` that lie on `a`. */
export const commonStretches = (a: Piece, b: Piece): Stretch[] => {
  const shares = [a.from, a.to].flatMap((p) => shareOf(b, p) ?? []);
  if (shareOf(a, b.from) !== undefined) shares.push(0);
  if (shareOf(a, b.to) !== undefined) shares.push(1);
  const rising = [...new Set(shares)].sort((x, y) => x - y);
  const long = pieceLength(b);
  return rising.slice(1).flatMap((to, i) => {
    const from = rising[i] as number;
    const isCommon =
      (to - from) * long > SHORTEST_SHARED_MM &&
      [0.25, 0.5, 0.75].every((k) => shareOf(a, pointOn(b, from + k * (to - from))) !== undefined);
    return isCommon ? [{ from, to }] : [];
  });
};

/** A stretch of one piece that an earlier piece draws already. */
export interface Doubled {
  /** Number of the piece that keeps the stretch, and of the one that repeats it. */
  readonly kept: number;
  readonly piece: number;
  /** The stretch of the repeating piece. */
  readonly stretch: Stretch;
}

/** All stretches that are drawn more than once. */
export const doubledIn = (pieces: readonly Piece[]): Doubled[] => {
  const doubled: Doubled[] = [];
  forNeighbours(pieces, CUT_AS_ONE_MM, (kept, piece) => {
    for (const stretch of commonStretches(pieces[kept] as Piece, pieces[piece] as Piece))
      doubled.push({ kept, piece, stretch });
  });
  return doubled;
};

/** A place where a piece is to be cut in two. */
export interface Cut {
  readonly piece: number;
  readonly at: Vec2;
}

/**
 * The pieces with each stretch drawn once. A piece that is kept is cut where a doubled stretch
 * begins and ends, so that a line which continued there still continues from a corner. It is also
 * cut at the places that the caller names.
 */
export const once = <P extends Piece>(
  pieces: readonly P[],
  doubled: readonly Doubled[],
  more: readonly Cut[] = [],
): P[] => {
  const gone = new Map<number, Stretch[]>();
  const cuts = new Map<number, number[]>();
  for (const { kept, piece, stretch } of doubled) {
    const [own, other] = [pieces[piece] as P, pieces[kept] as P];
    listAt(gone, piece).push(stretch);
    listAt(cuts, kept).push(
      ...[stretch.from, stretch.to].flatMap((share) => shareOf(other, pointOn(own, share)) ?? []),
    );
  }
  for (const { piece, at } of more)
    listAt(cuts, piece).push(...[shareOf(pieces[piece] as P, at) ?? []].flat());
  return pieces.flatMap((p, i) => without(p, gone.get(i) ?? [], cuts.get(i) ?? []));
};

const listAt = <T>(lists: Map<number, T[]>, i: number): T[] => {
  const known = lists.get(i) ?? [];
  lists.set(i, known);
  return known;
};

/** What is left of a piece without some stretches, cut at some shares of it. */
export const without = <P extends Piece>(
  p: P,
  stretches: readonly Stretch[],
  cuts: readonly number[] = [],
): P[] => {
  if (stretches.length === 0 && cuts.length === 0) return [p];
  const long = pieceLength(p);
  const crumb = SHORTEST_SHARED_MM / 2 / long;
  const marks = [
    ...stretches,
    ...cuts.filter((cut) => cut < 1 - crumb).map((cut) => ({ from: cut, to: cut })),
    { from: 1, to: 1 },
  ];
  const left: P[] = [];
  let at = 0;
  for (const { from, to } of marks.toSorted((a, b) => a.from - b.from)) {
    if (from - at > crumb) {
      left.push({
        ...p,
        from: pointOn(p, at),
        to: pointOn(p, from),
        bulge: partBulge(p.bulge, at, from),
      });
      at = from;
    }
    // A mere cut takes nothing away.
    if (to > from) at = Math.max(at, to);
  }
  return left;
};

export const stretchLength = (p: Piece, { from, to }: Stretch): number =>
  (to - from) * pieceLength(p);
