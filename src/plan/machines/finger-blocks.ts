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
  const sums = subsetSums(widths);
  const most = room.to - room.from + SAME_LENGTH_MM;
  const best = used === 0 ? bestOfAllFor(widths, most, on) : bestOfFree(widths, { used, most, on });
  return best === undefined ? undefined : { block: best, held: Math.min(on, sums[best] as number) };
}

const bestKnown = new WeakMap<readonly number[], Map<string, number | undefined>>();

/** The most blocks that are kept of one set of fingers. */
const MOST_BLOCKS = 2000;

/**
 * The best block out of all fingers, remembered: a fold of some length in a room of some width comes
 * again from state to state and from part to part, and every set of fingers is looked at for it.
 */
const bestOfAllFor = (widths: readonly number[], most: number, on: number): number | undefined => {
  const known = bestKnown.get(widths) ?? new Map<string, number | undefined>();
  bestKnown.set(widths, known);
  const key = `${most} ${on}`;
  if (known.has(key)) return known.get(key);
  if (known.size >= MOST_BLOCKS) known.clear();
  const best = bestOfFree(widths, { used: 0, most, on });
  known.set(key, best);
  return best;
};

const bestOfFree = (
  widths: readonly number[],
  { used, most, on }: { readonly used: number; readonly most: number; readonly on: number },
): number | undefined => {
  const sums = subsetSums(widths);
  const all = { widths, sums };
  let best: number | undefined;
  for (let block = 0; block < sums.length; block++) {
    if ((block & used) !== 0 || (sums[block] as number) > most) continue;
    if (best === undefined || isBetterBlock(all, on, block, best)) best = block;
  }
  return best;
};

/** Whether one block is better than another for the length that must be held. */
const isBetterBlock = (
  { widths, sums }: { readonly widths: readonly number[]; readonly sums: readonly number[] },
  on: number,
  block: number,
  other: number,
): boolean => {
  const [a, b] = [sums[block] as number, sums[other] as number];
  const [isEnough, wasEnough] = [a >= on - SAME_LENGTH_MM, b >= on - SAME_LENGTH_MM];
  if (isEnough !== wasEnough) return isEnough;
  return a === b ? fingersIn(widths, block) < fingersIn(widths, other) : isEnough ? a < b : a > b;
};
