import { changeCost, type Lie } from './cost.ts';
import type { Lattice } from './lattice.ts';

/** What the folds of a set must cost at least, when the stroke after them is made in some lie. */
export type AtLeast = (made: number, lie: number) => number;

/**
 * Sets of this many kinds of folds are worked out; with more kinds the stops are left out of the
 * bound, then all.
 */
const MOST_KINDS = 9;

/**
 * A lower bound for the cost of making a set of folds: as if nothing ever stood in the way, and all
 * folds that can be made in one lie were made while the part lies so. `lieOf[stroke][placement]`
 * numbers `lies`.
 */
export function boundOf(
  lattice: Lattice,
  lies: readonly Lie[],
  lieOf: readonly (readonly number[])[],
): AtLeast {
  for (const seen of [lies, lies.map((l): Lie => ({ ...l, stopMm: 0 }))]) {
    const merged = seen.map((l) => seen.findIndex((o) => changeCost(o, l) === 0));
    const kinds = kindsOf(lattice, lieOf, merged);
    if (kinds.length <= MOST_KINDS) return boundOver(kinds, seen, merged);
  }
  return () => 0;
}

/** Folds that may be made in the same lies. */
interface Kind {
  readonly folds: number;
  readonly lies: readonly number[];
}

function kindsOf(
  { net, strokes }: Lattice,
  lieOf: readonly (readonly number[])[],
  merged: readonly number[],
): Kind[] {
  const byLies = new Map<string, Kind>();
  net.folds.forEach((_, fold) => {
    const own = strokes.flatMap(({ bits }, s) =>
      (bits & (1 << fold)) === 0 ? [] : (lieOf[s] ?? []).map((l) => merged[l] as number),
    );
    const lies = [...new Set(own)].toSorted((a, b) => a - b);
    const known = byLies.get(lies.join());
    byLies.set(lies.join(), { folds: (known?.folds ?? 0) | (1 << fold), lies });
  });
  return [...byLies.values()];
}

function boundOver(
  kinds: readonly Kind[],
  lies: readonly Lie[],
  merged: readonly number[],
): AtLeast {
  const known = new Map<number, number>();
  const costOf = (left: number, lie: number): number => {
    if (left === 0) return 0;
    const key = left * (lies.length + 1) + lie + 1;
    const found = known.get(key);
    if (found !== undefined) return found;
    let least = Infinity;
    for (const before of new Set(
      kinds.flatMap((k, i) => ((left & (1 << i)) === 0 ? [] : k.lies)),
    )) {
      const rest = kinds.reduce(
        (set, k, i) => (k.lies.includes(before) ? set & ~(1 << i) : set),
        left,
      );
      const change = lie < 0 ? 0 : changeCost(lies[before] as Lie, lies[lie] as Lie);
      least = Math.min(least, change + costOf(rest, before));
    }
    known.set(key, least);
    return least;
  };
  return (made, lie) => {
    let left = 0;
    for (let i = 0; i < kinds.length; i++)
      if ((made & (kinds[i] as Kind).folds) !== 0) left |= 1 << i;
    return costOf(left, lie < 0 ? -1 : (merged[lie] as number));
  };
}
