import { SAME_LENGTH_MM } from '../../geometry/tolerance.ts';
import { fingersIn, fingerUnits } from './finger-units.ts';

/** A free stretch along the fold, and how much of the fold lies in it, mm. */
interface Room {
  readonly room: { readonly from: number; readonly to: number };
  readonly on: number;
}

const tables = new WeakMap<readonly number[], readonly number[]>();

/** The width of every subset of a set of fingers (`fingerUnits`), indexed by its bits. */
export const subsetSums = (widths: readonly number[]): readonly number[] => {
  const known = tables.get(widths);
  if (known !== undefined) return known;
  const sums = [0];
  for (const width of fingerUnits(widths).map((unit) => unit.reduce((sum, one) => sum + one, 0)))
    for (let i = 0, n = sums.length; i < n; i++) sums.push((sums[i] as number) + width);
  tables.set(widths, sums);
  return sums;
};

/**
 * The fingers for one room out of those that are still free: the block that holds all of the fold
 * in the room with the least width, and with the fewest fingers among equal widths; where none
 * does, the widest block that fits.
 */
export function bestBlock(
  widths: readonly number[],
  used: number,
  { room, on }: Room,
): { readonly block: number; readonly held: number } | undefined {
  const { sums, rising, falling } = sortedOf(widths);
  const most = room.to - room.from + SAME_LENGTH_MM;
  const enough = on - SAME_LENGTH_MM;
  const isFree = (block: number): boolean => (block & used) === 0;
  const widthOf = (block: number): number => sums[block] as number;
  // Free blocks are many, so that one of the first is mostly free.
  for (let i = firstWhere(rising, (b) => widthOf(b) >= enough); i < rising.length; i++) {
    const block = rising[i] as number;
    if (widthOf(block) > most) break;
    if (isFree(block)) return { block, held: Math.min(on, widthOf(block)) };
  }
  for (let i = firstWhere(falling, (b) => widthOf(b) <= most); i < falling.length; i++) {
    const block = falling[i] as number;
    if (isFree(block)) return { block, held: Math.min(on, widthOf(block)) };
  }
  return undefined;
}

/** All blocks of a set of fingers by width, of equal ones that with the fewest fingers first. */
interface Sorted {
  readonly sums: readonly number[];
  readonly rising: Uint32Array;
  readonly falling: Uint32Array;
}

const sortedKnown = new WeakMap<readonly number[], Sorted>();

const sortedOf = (widths: readonly number[]): Sorted => {
  const known = sortedKnown.get(widths);
  if (known !== undefined) return known;
  const sums = subsetSums(widths);
  const fingers = sums.map((_, block) => fingersIn(widths, block));
  const byWidth = (sign: 1 | -1): Uint32Array =>
    Uint32Array.from(sums.keys()).sort(
      (a, b) =>
        sign * ((sums[a] as number) - (sums[b] as number)) ||
        (fingers[a] as number) - (fingers[b] as number) ||
        a - b,
    );
  const made = { sums, rising: byWidth(1), falling: byWidth(-1) };
  sortedKnown.set(widths, made);
  return made;
};

/** The first place in a list from which on a condition holds; its length where it never does. */
const firstWhere = (list: Uint32Array, holds: (block: number) => boolean): number => {
  let [from, to] = [0, list.length];
  while (from < to) {
    const mid = (from + to) >> 1;
    if (holds(list[mid] as number)) to = mid;
    else from = mid + 1;
  }
  return from;
};
