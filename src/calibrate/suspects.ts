import type { LeastSquares } from '../statistics/least-squares.ts';
import { chiSquare99 } from '../statistics/chi-square.ts';
import { sift, type Sifted, solveOf, standardised } from '../statistics/resistant.ts';
import { legsApart } from './legs.ts';
import type { Reading } from './readings.ts';
import type { MeasuredStrip } from './strip.ts';

/** The readings parted into those that go together and those that do not; places in the list. */
export interface Parted {
  readonly kept: readonly number[];
  /** Wrong, each for itself. */
  readonly outliers: readonly number[];
  /** One of each group is wrong, and nothing says which: all of them are left out. */
  readonly unsure: readonly (readonly number[])[];
}

/** How much worse an explanation has to be to be none: the 99 % point of one degree of freedom. */
const RIVAL = chiSquare99(1);

/**
 * Finds the readings that do not go with the others. Where leaving out another one in its place
 * would explain the strips about as well, what K and radius would come to decides, then the legs of
 * the strip; else both are left out. `undefined` where nothing pins K and radius down.
 */
export function partReadings(
  readings: readonly Reading[],
  strips: readonly MeasuredStrip[],
): Parted | undefined {
  const sifted = sift(readings, isPossible);
  if (sifted === undefined) return undefined;
  const apart = new Set(legsApart(strips).map(({ strip }) => strip));
  const outliers: number[] = [];
  const unsure: (readonly number[])[] = [];
  for (const outlier of sifted.outliers) {
    const chosen = narrowed(readings, sifted, suspectsFor(readings, sifted, outlier), apart);
    if (chosen.length === 1) outliers.push(...chosen);
    else unsure.push(chosen);
  }
  const out = new Set([...outliers, ...unsure.flat()]);
  return { kept: readings.map((_, i) => i).filter((i) => !out.has(i)), outliers, unsure };
}

/**
 * No neutral line lies outside the sheet, and no radius is less than nothing: within what readings
 * are off by.
 */
const isPossible = ([radius = 0, k = 0]: readonly number[]): boolean =>
  k > -0.3 && k < 1.3 && radius > -1;

/** An outlier with those of the kept readings that might be the wrong one in its place. */
const suspectsFor = (
  readings: readonly Reading[],
  { kept, scatter }: Sifted,
  outlier: number,
): number[] => {
  const together = [...kept, outlier].toSorted((a, b) => a - b);
  const off = standardised(readings, together);
  const fit = solveOf(readings, together);
  if (fit === undefined) return [outlier];
  const freedom = together.length - 3;
  // Without one of them the sum of the squares falls by the square of its standardised residual.
  const total = fit.misfit ** 2 * (freedom + 1);
  const most = freedom < 1 ? Infinity : chiSquare99(freedom) * scatter ** 2;
  const own = (off[outlier] as number) ** 2;
  return [
    outlier,
    ...kept.filter(
      (i) =>
        own - (off[i] as number) ** 2 < RIVAL * scatter ** 2 &&
        total - (off[i] as number) ** 2 <= most,
    ),
  ];
};

const narrowed = (
  readings: readonly Reading[],
  { kept }: Sifted,
  suspects: readonly number[],
  apart: ReadonlySet<number>,
): readonly number[] => {
  if (suspects.length === 1) return suspects;
  const [outlier] = suspects as [number];
  const without = (i: number): LeastSquares | undefined =>
    solveOf(
      readings,
      [...kept, outlier].filter((k) => k !== i),
    );
  const likely = suspects.filter((i) => isLikely(without(i)));
  const left = likely.length === 0 ? suspects : likely;
  const seen = left.filter((i) => readings[i]?.of === 'legs' && apart.has(readings[i].strip));
  return seen.length === 1 ? seen : left;
};

/** K factors of bends in sheet, as handbooks and shops have them; see `remarks.ts`. */
export const LIKELY_K = [0.2, 0.6] as const;

/** Whether the truth may lie where bends do, for all that is known. */
const isLikely = (fit: LeastSquares | undefined): boolean => {
  if (fit === undefined) return false;
  const [radius = 0, k = 0] = fit.x;
  const off = (i: number): number => 2 * Math.sqrt((fit.covariance[i] as number[])[i] as number);
  return k + off(1) >= LIKELY_K[0] && k - off(1) <= LIKELY_K[1] && radius + off(0) >= 0;
};
