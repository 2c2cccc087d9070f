import { changeCost, type Orientation } from './cost.ts';
import type { Lattice } from './lattice.ts';

/**
 * The least that the folds of a set can cost when the stroke after them is made in a given
 * orientation.
 */
export type AtLeast = (made: number, orientation: number) => number;

/**
 * The most kinds of folds whose sets are worked out. With more kinds the stops are left out of the
 * bound, and then everything.
 */
const MOST_KINDS = 9;

/**
 * A lower bound for the cost of making a set of folds: the cost if nothing ever stood in the way,
 * and if all folds that can be made in one orientation were made while the part lies in it.
 * `orientationOf[stroke][placement]` numbers `orientations`.
 */
export function boundOf(
  lattice: Lattice,
  orientations: readonly Orientation[],
  orientationOf: readonly (readonly number[])[],
): AtLeast {
  for (const seen of [orientations, orientations.map((l): Orientation => ({ ...l, stopMm: 0 }))]) {
    const merged = seen.map((l) => seen.findIndex((o) => changeCost(o, l) === 0));
    const kinds = kindsOf(lattice, orientationOf, merged);
    if (kinds.length <= MOST_KINDS) return boundOver(kinds, seen, merged);
  }
  return () => 0;
}

/** Folds that may be made in the same orientations. */
interface Kind {
  readonly folds: number;
  readonly orientations: readonly number[];
}

function kindsOf(
  { net, strokes }: Lattice,
  orientationOf: readonly (readonly number[])[],
  merged: readonly number[],
): Kind[] {
  const byOrientations = new Map<string, Kind>();
  net.folds.forEach((_, fold) => {
    const own = strokes.flatMap(({ bits }, s) =>
      (bits & (1 << fold)) === 0 ? [] : (orientationOf[s] ?? []).map((l) => merged[l] as number),
    );
    const orientations = [...new Set(own)].toSorted((a, b) => a - b);
    const known = byOrientations.get(orientations.join());
    byOrientations.set(orientations.join(), {
      folds: (known?.folds ?? 0) | (1 << fold),
      orientations,
    });
  });
  return [...byOrientations.values()];
}

function boundOver(
  kinds: readonly Kind[],
  orientations: readonly Orientation[],
  merged: readonly number[],
): AtLeast {
  const known = new Map<number, number>();
  const costOf = (left: number, orientation: number): number => {
    if (left === 0) return 0;
    const key = left * (orientations.length + 1) + orientation + 1;
    const found = known.get(key);
    if (found !== undefined) return found;
    let least = Infinity;
    for (const before of new Set(
      kinds.flatMap((k, i) => ((left & (1 << i)) === 0 ? [] : k.orientations)),
    )) {
      const rest = kinds.reduce(
        (set, k, i) => (k.orientations.includes(before) ? set & ~(1 << i) : set),
        left,
      );
      const change =
        orientation < 0
          ? 0
          : changeCost(
              orientations[before] as Orientation,
              orientations[orientation] as Orientation,
            );
      least = Math.min(least, change + costOf(rest, before));
    }
    known.set(key, least);
    return least;
  };
  return (made, orientation) => {
    let left = 0;
    for (let i = 0; i < kinds.length; i++)
      if ((made & (kinds[i] as Kind).folds) !== 0) left |= 1 << i;
    return costOf(left, orientation < 0 ? -1 : (merged[orientation] as number));
  };
}
