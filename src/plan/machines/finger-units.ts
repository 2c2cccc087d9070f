import { bitCount } from './bits.ts';

/**
 * The most fingers that are chosen from one by one: their subsets are tried, all of them, and each
 * more doubles the number.
 */
const MOST_SINGLE = 18;

const known = new WeakMap<readonly number[], readonly (readonly number[])[]>();

/**
 * Fingers as they are put in: each by itself, or, in a set of more than can be tried, equal ones in
 * groups of 1, 2, 4 and so on, of which any number can be made up, and the widest ones together in
 * pairs where that is not enough. Narrow ones stay single, so that the block still comes out to the
 * width. A block that is found is one of the shop's; one that takes a group apart, in two places at
 * once, may be missed.
 *
 * @param widths the same list gives the same answer, remembered
 */
export const fingerUnits = (widths: readonly number[]): readonly (readonly number[])[] => {
  const before = known.get(widths);
  if (before !== undefined) return before;
  let units = widths.length > MOST_SINGLE ? grouped(widths) : widths.map((width): Unit => [width]);
  while (units.length > MOST_SINGLE) {
    // The smallest groups first, and of them the widest.
    const [a, b, ...others] = units.toSorted(
      (p, q) => p.length - q.length || (q[0] as number) - (p[0] as number),
    ) as [Unit, Unit, ...Unit[]];
    units = [...others, [...a, ...b]];
  }
  known.set(widths, units);
  return units;
};

/** How many fingers there are in a set of units, given as bits. */
export const fingersIn = (widths: readonly number[], block: number): number => {
  const units = fingerUnits(widths);
  return units.length === widths.length
    ? bitCount(block)
    : units.reduce((sum, unit, k) => sum + ((block & (1 << k)) === 0 ? 0 : unit.length), 0);
};

type Unit = readonly number[];

/** Equal fingers in groups of 1, 2, 4 and so on, the last one of what is left. */
const grouped = (widths: readonly number[]): readonly Unit[] =>
  [...new Set(widths)].flatMap((width) => {
    const units: Unit[] = [];
    let left = widths.filter((w) => w === width).length;
    for (let size = 1; left > 0; size *= 2) {
      units.push(Array.from({ length: Math.min(size, left) }, () => width));
      left -= size;
    }
    return units;
  });
