import type { LeastSquares } from '../statistics/least-squares.ts';
import { chiSquare99 } from '../statistics/chi-square.ts';
import { sift, type Sifted, solveOf, standardised } from '../statistics/resistant.ts';
import { legsApart } from './legs.ts';
import type { Reading } from './readings.ts';
import type { MeasuredStrip } from './strip.ts';

/** The readings sorted into those that agree and those that do not, by their places in the list. */
export interface Parted {
  readonly kept: readonly number[];
  /** Readings that are each known to be wrong. */
  readonly outliers: readonly number[];
  /** Groups of which one reading is wrong. Nothing tells which, so the whole group is left out. */
  readonly unsure: readonly (readonly number[])[];
}

/**
 * How much worse an explanation must be to be ruled out: the 99 % point of one degree of freedom.
 */
const RIVAL = chiSquare99(1);

/**
 * Finds the readings that do not agree with the others. Where leaving out another reading instead
 * would explain the strips about as well, the K and radius that would follow decide, then the legs
 * of the strip; if these do not decide, both are left out. `undefined` where nothing determines K
 * and radius.
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
 * Whether K and radius are possible within the errors of reading: no neutral line lies outside the
 * sheet, and no radius is below 0.
 */
const isPossible = ([radius = 0, k = 0]: readonly number[]): boolean =>
  k > -0.3 && k < 1.3 && radius > -1;

/** An outlier, and those of the kept readings that might be the wrong one instead. */
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
  // When one of them is left out, the sum of the squares falls by the square of its standardised
  // residual.
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

/** Whether the true values may lie where those of bends do, as far as is known. */
const isLikely = (fit: LeastSquares | undefined): boolean => {
  if (fit === undefined) return false;
  const [radius = 0, k = 0] = fit.x;
  const off = (i: number): number => 2 * Math.sqrt((fit.covariance[i] as number[])[i] as number);
  return k + off(1) >= LIKELY_K[0] && k - off(1) <= LIKELY_K[1] && radius + off(0) >= 0;
};
