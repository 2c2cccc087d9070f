import { farthestApart, fitsTurned } from '../geometry/fit.ts';
import { leastOnLines } from './line-measure.ts';
import type { Silhouette } from './silhouette.ts';

/** A blank that fits on the sheet, and its quantity. */
export interface Laid {
  readonly shape: Silhouette;
  readonly quantity: number;
}

/**
 * A lower bound of the sheets `lengthMm` x `widthMm` that the blanks need, however they are turned,
 * nested and laid into each other's holes. Some measures of a sheet cannot be shared by two blanks:
 * its area, and the length of lines across it. By each measure the bound is the number of bins that
 * hold as much as one sheet. A second bound counts blanks of which no two fit together by one
 * measure or another; these take a sheet each.
 */
export const leastSheets = (blanks: readonly Laid[], lengthMm: number, widthMm: number): number => {
  if (blanks.length === 0) return 0;
  const shares = sharesOf(blanks, lengthMm, widthMm);
  const bounds = shares.map((share) =>
    leastBins(blanks.map(({ quantity }, i) => ({ size: share[i] as number, quantity }))),
  );
  return Math.max(1, ...bounds, strangers(blanks, shares));
};

/** Greatest number of lines: they divide a sheet into two, three and four parts. */
const MOST_LINES = 3;

/**
 * The least share of a sheet that each blank takes, by each measure. Rounding makes it smaller,
 * never larger.
 */
const sharesOf = (
  blanks: readonly Laid[],
  lengthMm: number,
  widthMm: number,
): readonly (readonly number[])[] => {
  const smallest = Math.min(...blanks.map(({ shape }) => farthestApart(shape.hull)));
  const cores = blanks.map(({ shape }) => {
    // Most holes are smaller than any blank, and then nothing can lie in them.
    const isRoomInside = shape.holes.some(
      ([w, h]) =>
        Math.hypot(w, h) >= smallest && blanks.some((other) => fitsTurned(other.shape.hull, w, h)),
    );
    return { hull: shape.hull, core: isRoomInside ? shape.solid : shape.core };
  });
  const onLines = (along: number, across: number, lines: number): number[] =>
    cores.map(({ hull, core }) =>
      core === undefined
        ? 0
        : leastOnLines({ hull, core }, along, across, lines) / (lines * across),
    );
  const lines = Array.from({ length: MOST_LINES }, (_, i) => i + 1);
  return [
    blanks.map(({ shape }) => shape.areaMm2 / (lengthMm * widthMm)),
    ...lines.flatMap((count) => [
      onLines(lengthMm, widthMm, count),
      onLines(widthMm, lengthMm, count),
    ]),
  ].map((share) => share.map((size) => Math.min(1, size) * (1 - SAME_SIZE)));
};

interface Item {
  readonly size: number;
  readonly quantity: number;
}

/**
 * The least number of bins of size 1 for items of sizes up to 1: bound L2 of S. Martello and P.
 * Toth, Knapsack Problems (1990), section 8.3 (cited from memory). For any a up to a half, items
 * over 1 - a have a bin to themselves, and so do those over a half; the other items fill what the
 * latter leave free, where only items of size a and more are counted.
 */
export const leastBins = (items: readonly Item[]): number => {
  const count = (isOne: (size: number) => boolean): number =>
    items.reduce((sum, { size, quantity }) => sum + (isOne(size) ? quantity : 0), 0);
  const total = (isOne: (size: number) => boolean): number =>
    items.reduce((sum, { size, quantity }) => sum + (isOne(size) ? size * quantity : 0), 0);
  // Sums of shares are exact only to their last figure, so an item that equals the limit fits.
  const tries = [...new Set([0, ...items.map(({ size }) => size)])]
    .filter((size) => size <= 0.5 + SAME_SIZE)
    .slice(0, MOST_TRIES);
  return Math.max(
    ...tries.map((a) => {
      const [alone, half] = [
        (size: number) => size > 1 - a + SAME_SIZE,
        (size: number) => size > 0.5 + SAME_SIZE && size <= 1 - a + SAME_SIZE,
      ];
      const left = count(half) - total(half);
      const rest = total((size) => size <= 0.5 + SAME_SIZE && size >= a) - left;
      return count(alone) + count(half) + Math.max(0, Math.ceil(rest - 1e3 * SAME_SIZE));
    }),
  );
};

/** Sizes, as shares of a sheet, that differ by less than this differ by rounding only. */
const SAME_SIZE = 1e-9;

/** The bound gains nothing from more different sizes than this. */
const MOST_TRIES = 200;

/**
 * Number of blanks of which no two go on one sheet, by any measure; they are picked one after the
 * other, the largest first.
 */
const strangers = (blanks: readonly Laid[], shares: readonly (readonly number[])[]): number => {
  const largest = (i: number): number => Math.max(...shares.map((share) => share[i] as number));
  const isApart = (i: number, j: number): boolean =>
    shares.some((share) => (share[i] as number) + (share[j] as number) > 1);
  const order = blanks.map((_, i) => i).toSorted((i, j) => largest(j) - largest(i));
  const chosen = order.reduce<readonly number[]>(
    (all, i) => (all.every((j) => isApart(i, j)) ? [...all, i] : all),
    [],
  );
  return chosen.reduce((sum, i) => sum + (isApart(i, i) ? (blanks[i] as Laid).quantity : 1), 0);
};
