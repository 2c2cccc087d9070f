import { normalDeviates } from '../statistics/normal.ts';
import { type BoltHole, playMm } from './bolt-holes.ts';
import { type Factor, factorInPlace, solveInPlace } from '../statistics/linear.ts';
import type { Pattern } from './pattern.ts';
import { wholeDown } from '../geometry/tolerance.ts';

/**
 * Number of samples, which gives a chance of 95 percent to within 0.7 percent (one standard
 * deviation).
 */
const SAMPLES = 1000;

/**
 * A bolt that touches the rim of its play, of radius 1, is within it, because rounding moves it by
 * this much.
 */
const ON_RIM = 1e-9;

/** The least weight of a hole, because a hole of no weight could never gain weight again. */
const LEAST_WEIGHT = 1e-9;
const START = 20_260_101;

/**
 * The chance that all bolts go in when the part is pushed about until they do: the share of sampled
 * errors for which some motion brings every hole within the play of its bolt. A face may stand off
 * by as much as its bolt has play; a slot lets its bolt run along it. The samples are the same
 * every time.
 */
export const chanceOf = (pattern: Pattern, holes: readonly BoltHole[]): number =>
  sampled(pattern, holes, SAMPLES) ?? 0;

/** The same chance, or `undefined` as soon as it is certain to be less than `wanted`. */
export const chanceOver = (
  wanted: number,
  pattern: Pattern,
  holes: readonly BoltHole[],
): number | undefined => sampled(pattern, holes, wholeDown(SAMPLES * (1 - wanted)));

const sampled = (
  { spread, motions }: Pattern,
  holes: readonly BoltHole[],
  mostFailed: number,
): number | undefined => {
  const deviate = normalDeviates(START);
  const { goIn } = boltingOf(motions, holes);
  const columns = spread[0]?.length ?? 0;
  const causes = new Float64Array(columns);
  const errors = new Float64Array(spread.length);
  let failed = 0;
  for (let s = 0; s < SAMPLES; s += 1) {
    for (let j = 0; j < columns; j += 1) causes[j] = deviate();
    spread.forEach((row, r) => {
      let sum = 0;
      for (let j = 0; j < columns; j += 1) sum += (row[j] as number) * (causes[j] as number);
      errors[r] = sum;
    });
    if (goIn(errors)) continue;
    failed += 1;
    if (failed > mostFailed) return undefined;
  }
  return (SAMPLES - failed) / SAMPLES;
};

/** Holes that a part is bolted on by, prepared for one set of errors after another. */
export interface Bolting {
  /** Whether some motion brings all bolts in. */
  readonly goIn: (errors: ArrayLike<number>) => boolean;
  /**
   * The errors that are left when the part lies as well as it can by least squares, in plays of
   * each hole: along it, across it and out of the face.
   */
  readonly settled: (errors: ArrayLike<number>) => ArrayLike<number>;
}

const MOST_ROUNDS = 40;
const MOTIONS = 6;

/**
 * Damping, far above rounding and far below the effect of any motion, as a share of the strongest
 * effect.
 */
const DAMPING = 1e-10;

/**
 * Solves the system of one round, and overwrites it. What several motions can do alike is given to
 * any of them.
 */
const solveDamped = (system: Factor, right: Float64Array, x: Float64Array): void => {
  let largest = 0;
  for (let i = 0; i < system.size; i += 1)
    largest = Math.max(largest, system.lower[system.size * i + i] as number);
  factorInPlace(system, DAMPING * (largest || 1));
  x.set(right);
  solveInPlace(system, x);
};

/**
 * Searches for the motion whose greatest misfit, as a multiple of the play, is least. It uses
 * Lawson's iteration: least squares again and again, each hole weighing more the worse it misses
 * (Lawson 1961, in any text on Chebyshev approximation). The weighted mean of the squares is a
 * lower bound of the square of that misfit, so where it is over 1, no motion will do. A slot counts
 * as the ellipse inside it.
 */
export const boltingOf = (motions: Pattern['motions'], holes: readonly BoltHole[]): Bolting => {
  const n = holes.length;
  const rows = holes.map((hole, i) => scaledMotions(hole, motions, i));
  const squares = rows.map(squareOf);
  const [errors, left, weights, misses] = [
    new Float64Array(3 * n),
    new Float64Array(3 * n),
    new Float64Array(n),
    new Float64Array(n),
  ];
  const [normal, right, motion] = [
    new Float64Array(MOTIONS * MOTIONS),
    new Float64Array(MOTIONS),
    new Float64Array(MOTIONS),
  ];
  const begin = (given: ArrayLike<number>): void => {
    weights.fill(1 / n);
    holes.forEach((hole, i) => scaledError(hole, given, i, errors));
  };
  const settle = (): void => {
    normal.fill(0);
    right.fill(0);
    for (let i = 0; i < n; i += 1) {
      const w = weights[i] as number;
      addScaled(normal, squares[i] as Float64Array, w);
      const row = rows[i] as Float64Array;
      for (let k = 0; k < 3; k += 1) {
        const e = w * (errors[3 * i + k] as number);
        for (let j = 0; j < MOTIONS; j += 1)
          right[j] = (right[j] as number) - e * (row[MOTIONS * k + j] as number);
      }
    }
    solveDamped({ size: MOTIONS, lower: normal }, right, motion);
    for (let i = 0; i < n; i += 1) misses[i] = missOf(rows[i] as Float64Array, i);
  };
  const missOf = (row: Float64Array, i: number): number => {
    let sum = 0;
    for (let k = 0; k < 3; k += 1) {
      let v = errors[3 * i + k] as number;
      for (let j = 0; j < MOTIONS; j += 1)
        v += (row[MOTIONS * k + j] as number) * (motion[j] as number);
      left[3 * i + k] = v;
      sum += v * v;
    }
    return Math.sqrt(sum);
  };
  return {
    goIn: (given) => {
      begin(given);
      for (let round = 0; round < MOST_ROUNDS; round += 1) {
        settle();
        if (misses.every((m) => m <= 1 + ON_RIM)) return true;
        if (!weighAnew(weights, misses)) return false;
      }
      return false;
    },
    settled: (given) => {
      begin(given);
      settle();
      return left;
    },
  };
};

const addScaled = (sum: Float64Array, values: Float64Array, by: number): void => {
  for (let k = 0; k < sum.length; k += 1) sum[k] = (sum[k] as number) + by * (values[k] as number);
};

/**
 * Makes each hole weigh more the worse it misses; `false` where the weighted mean of the squares
 * shows that no motion will do.
 */
const weighAnew = (weights: Float64Array, misses: Float64Array): boolean => {
  let [bound, total] = [0, 0];
  for (let i = 0; i < weights.length; i += 1) {
    const m = misses[i] as number;
    bound += (weights[i] as number) * m * m;
    total += (weights[i] as number) * m;
  }
  if (bound > 1) return false;
  for (let i = 0; i < weights.length; i += 1)
    weights[i] = Math.max(LEAST_WEIGHT, ((weights[i] as number) * (misses[i] as number)) / total);
  return true;
};

/** The least play of a bolt, mm; a bolt without play counts as having this much. */
const LEAST_PLAY_MM = 0.01;

/** Plays of a bolt along its hole, across it, and out of its face. */
export const playsOf = (hole: BoltHole): readonly [number, number, number] => {
  const across = Math.max(LEAST_PLAY_MM, playMm(hole));
  return [across + (hole.lengthMm - hole.widthMm) / 2, across, across];
};

const scaledError = (
  hole: BoltHole,
  given: ArrayLike<number>,
  i: number,
  to: Float64Array,
): void => {
  const [u, v, out] = [
    given[3 * i] as number,
    given[3 * i + 1] as number,
    given[3 * i + 2] as number,
  ];
  const [c, s] = hole.dir;
  const plays = playsOf(hole);
  to[3 * i] = (c * u + s * v) / plays[0];
  to[3 * i + 1] = (c * v - s * u) / plays[1];
  to[3 * i + 2] = out / plays[2];
};

/**
 * Three rows with the effect of each motion on a hole, in the hole's own directions and divided by
 * its plays.
 */
const scaledMotions = (hole: BoltHole, motions: Pattern['motions'], i: number): Float64Array => {
  const rows = new Float64Array(3 * MOTIONS);
  const one = new Float64Array(3);
  for (let j = 0; j < MOTIONS; j += 1) {
    scaledError(
      hole,
      [0, 1, 2].map((k) => motions[3 * i + k]?.[j] ?? 0),
      0,
      one,
    );
    one.forEach((v, k) => (rows[MOTIONS * k + j] = v));
  }
  return rows;
};

const squareOf = (rows: Float64Array): Float64Array => {
  const square = new Float64Array(MOTIONS * MOTIONS);
  for (let a = 0; a < MOTIONS; a += 1) {
    for (let b = 0; b < MOTIONS; b += 1) {
      for (let k = 0; k < 3; k += 1)
        square[MOTIONS * a + b] =
          (square[MOTIONS * a + b] as number) +
          (rows[MOTIONS * k + a] as number) * (rows[MOTIONS * k + b] as number);
    }
  }
  return square;
};
