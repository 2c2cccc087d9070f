import { leastSquares, type LeastSquares, type Observation } from './least-squares.ts';
import { ONE_IN_THOUSAND, scatterOf } from './middle.ts';

/**
 * A straight fit in two unknowns, with the observations that do not go with it. Observations are
 * named by their places in the list.
 */
export interface Sifted {
  /** Least squares of the observations that were kept. */
  readonly fit: LeastSquares;
  readonly kept: readonly number[];
  readonly outliers: readonly number[];
  /**
   * Scatter of the observations as a multiple of the stated errors, from the middle one; never
   * under 1.
   */
  readonly scatter: number;
}

/**
 * How far off an observation must lie to be an outlier. A scatter that had to be estimated from the
 * observations is less certain, so Student's t takes the place of the normal distribution, by the
 * first terms of its expansion (Abramowitz and Stegun 26.7.5).
 */
const limitOf = (count: number, scatter: number): number =>
  scatter === 1
    ? ONE_IN_THOUSAND
    : scatter * (ONE_IN_THOUSAND + (ONE_IN_THOUSAND ** 3 + ONE_IN_THOUSAND) / (4 * (count - 2)));

/**
 * No more pairs than this are tried: by then every good half of the observations has been met many
 * times.
 */
const MOST_PAIRS = 4000;

/** The number of best pairs that are followed up. */
const FOLLOWED = 10;

/**
 * Fewer observations than this say too little about their own scatter, and the stated errors are
 * taken as given.
 */
const ENOUGH = 7;

/** The scatter has settled when a round changes it by less than this, as a share of the sigmas. */
const SETTLED_SCATTER = 1e-9;

/**
 * An observation of which a smaller share shows in its residual is not checked by anything: such a
 * share is rounding.
 */
export const UNCHECKED = 1e-6;

/**
 * Least squares in two unknowns that a few wild observations do not pull at. It begins with the
 * half of the observations that agree best (least trimmed squares, from exact fits of pairs and
 * concentration steps: Rousseeuw and Van Driessen, Computing LTS regression for large data sets,
 * 2006). It then takes the others in one by one as long as they lie where the ones already in say
 * they should (forward search: Atkinson and Riani, Robust diagnostic regression analysis, 2000).
 * The threshold never grows with what is left out. `undefined` where nothing pins the unknowns
 * down.
 *
 * @param isPossible whether a solution could be the truth at all; one that could not is no starting
 * point
 */
export function sift(
  observations: readonly Observation[],
  isPossible: (x: readonly number[]) => boolean,
): Sifted | undefined {
  const whole = leastSquares(observations, 2);
  if (whole === undefined) return undefined;
  const all = observations.map((_, i) => i);
  const half = Math.floor(all.length / 2) + 1;
  if (all.length <= 3) return { fit: whole, kept: all, outliers: [], scatter: 1 };
  const start = bestHalf(observations, half, isPossible) ?? closest(observations, whole.x, half);
  let scatter = 1;
  let kept = grown(observations, start, scatter);
  // The middle one of all observations, kept or not, is not moved by a few wild ones.
  for (let round = 0; round < 8; round += 1) {
    const found = scatterOf(standardised(observations, kept));
    const wider = all.length < ENOUGH || found < EVIDENT ? 1 : found;
    if (Math.abs(wider - scatter) < SETTLED_SCATTER) break;
    scatter = wider;
    kept = grown(observations, start, scatter);
  }
  const fit = solveOf(observations, kept);
  return fit === undefined
    ? undefined
    : { fit, kept, outliers: all.filter((i) => !kept.includes(i)), scatter };
}

/**
 * The middle one of some ten observations shows a scatter of up to this by chance, so up to this
 * the stated errors are believed.
 */
const EVIDENT = 1.5;

export const solveOf = (
  observations: readonly Observation[],
  kept: readonly number[],
): LeastSquares | undefined =>
  leastSquares(
    kept.map((i) => observations[i] as Observation),
    2,
  );

/**
 * How many standard deviations each observation lies off the prediction of the kept ones. An
 * observation that was kept is left out of its own prediction.
 */
export function standardised(
  observations: readonly Observation[],
  kept: readonly number[],
): number[] {
  const fit = solveOf(observations, kept);
  if (fit === undefined) return observations.map(() => 0);
  const within = new Set(kept);
  return observations.map((o, i) => {
    const share = spanned(o, fit) / o.sigma ** 2;
    const free = within.has(i) ? 1 - share : 1 + share;
    return free < UNCHECKED ? 0 : Math.abs(residual(o, fit.x)) / (o.sigma * Math.sqrt(free));
  });
}

/** The square of the fit's own uncertainty at an observation. */
const spanned = ({ row }: Observation, { covariance }: LeastSquares): number =>
  row.reduce(
    (sum, a, i) =>
      sum +
      row.reduce((inner, b, j) => inner + a * b * ((covariance[i] as number[])[j] as number), 0),
    0,
  );

const residual = ({ row, right }: Observation, x: readonly number[]): number =>
  right - row.reduce((sum, v, i) => sum + v * (x[i] as number), 0);

const squares = (observations: readonly Observation[], x: readonly number[]): number[] =>
  observations.map((o) => (residual(o, x) / o.sigma) ** 2);

/** The observations nearest to a solution. */
const closest = (
  observations: readonly Observation[],
  x: readonly number[],
  count: number,
): number[] => {
  const off = squares(observations, x);
  return off
    .map((_, i) => i)
    .toSorted((a, b) => (off[a] as number) - (off[b] as number))
    .slice(0, count);
};

const sumOf = (observations: readonly Observation[], x: readonly number[], count: number): number =>
  squares(observations, x)
    .toSorted((a, b) => a - b)
    .slice(0, count)
    .reduce((sum, v) => sum + v, 0);

/** The half of the observations with the least sum of squares. */
function bestHalf(
  observations: readonly Observation[],
  half: number,
  isPossible: (x: readonly number[]) => boolean,
): number[] | undefined {
  const tried = pairsOf(observations.length).flatMap(([i, j]) => {
    const x = throughBoth(observations[i] as Observation, observations[j] as Observation);
    return x === undefined || !isPossible(x) ? [] : [{ x, sum: sumOf(observations, x, half) }];
  });
  const followed = tried
    .toSorted((a, b) => a.sum - b.sum)
    .slice(0, FOLLOWED)
    .flatMap(({ x }) => {
      const kept = concentrated(observations, closest(observations, x, half), half);
      const fit = solveOf(observations, kept);
      return fit === undefined || !isPossible(fit.x)
        ? []
        : [{ kept, sum: sumOf(observations, fit.x, half) }];
    });
  return followed.toSorted((a, b) => a.sum - b.sum)[0]?.kept;
}

/**
 * Fits the half, then takes the half nearest to that fit, until nothing changes; the sum never
 * grows.
 */
function concentrated(
  observations: readonly Observation[],
  start: readonly number[],
  half: number,
): number[] {
  let kept = [...start];
  for (let round = 0; round < 20; round += 1) {
    const fit = solveOf(observations, kept);
    const next = fit === undefined ? kept : closest(observations, fit.x, half);
    if (next.every((i) => kept.includes(i))) return kept;
    kept = next;
  }
  return kept;
}

/** All pairs, or a selection evenly spread over them. */
function pairsOf(count: number): readonly (readonly [number, number])[] {
  const step = Math.max(1, Math.floor((count * (count - 1)) / 2 / MOST_PAIRS));
  const pairs: [number, number][] = [];
  let at = 0;
  for (let i = 0; i < count; i += 1) {
    for (let j = i + 1; j < count; j += 1, at += 1) if (at % step === 0) pairs.push([i, j]);
  }
  return pairs;
}

/**
 * Two rows that run more nearly the same way than this have no usable crossing; the figure is the
 * sine between them.
 */
const LEAST_SINE = 0.02;

const throughBoth = (
  { row: [a = 0, b = 0], right: p }: Observation,
  { row: [c = 0, d = 0], right: q }: Observation,
): number[] | undefined => {
  const cross = a * d - b * c;
  if (Math.abs(cross) < LEAST_SINE * Math.hypot(a, b) * Math.hypot(c, d)) return undefined;
  return [(p * d - b * q) / cross, (a * q - p * c) / cross];
};

/**
 * Takes in one observation after another, each time the one that lies best with those already in,
 * up to the threshold.
 */
function grown(
  observations: readonly Observation[],
  start: readonly number[],
  scatter: number,
): number[] {
  const kept = [...start];
  for (;;) {
    const off = standardised(observations, kept);
    const outside = off
      .map((_, i) => i)
      .filter((i) => !kept.includes(i))
      .toSorted((a, b) => (off[a] as number) - (off[b] as number));
    const next = outside.filter((i) => (off[i] as number) <= limitOf(observations.length, scatter));
    // A large set takes in the nearest tenth at a time, because one more or less of so many hardly
    // moves the fit.
    if (next.length === 0) return kept.toSorted((a, b) => a - b);
    kept.push(...next.slice(0, Math.max(1, Math.floor(observations.length / 10))));
  }
}
