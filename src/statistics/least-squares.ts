import {
  cholesky,
  type Factor,
  pivotOf,
  type Rows,
  solveFactored,
  zeroRow,
  zeroRows,
} from './linear.ts';

/** One equation `row . x = right`, known to be right to within `sigma` (one standard deviation). */
export interface Observation {
  readonly row: readonly number[];
  readonly right: number;
  readonly sigma: number;
}

export interface LeastSquares {
  readonly x: readonly number[];
  /** Covariance of `x` when the sigmas are taken at their word. */
  readonly covariance: readonly (readonly number[])[];
  /** right - row . x, in the order of the observations. */
  readonly residuals: readonly number[];
  /**
   * The share of an error in each observation that shows in its own residual: 0 unchecked, 1 fully
   * checked.
   */
  readonly redundancy: readonly number[];
  /**
   * Root mean square of the residuals over their sigmas, per degree of freedom; 1 when the sigmas
   * were right, NaN for none.
   */
  readonly misfit: number;
}

/**
 * Weighted least squares of a linear model with few unknowns, by its normal equations (any textbook
 * on adjustment computations); `undefined` where the observations do not pin the unknowns down.
 */
export function leastSquares(
  observations: readonly Observation[],
  unknowns: number,
): LeastSquares | undefined {
  const normal: Rows = zeroRows(unknowns, unknowns);
  const right = zeroRow(unknowns);
  for (const { row, right: value, sigma } of observations) {
    const weight = 1 / sigma ** 2;
    row.forEach((v, i) => {
      right[i] = (right[i] as number) + weight * v * value;
      row.forEach(
        (w, j) =>
          ((normal[i] as number[])[j] = ((normal[i] as number[])[j] as number) + weight * v * w),
      );
    });
  }
  const factor = cholesky(normal);
  if (factor === undefined || isSingular(factor, normal)) return undefined;
  const x = solveFactored(factor, right);
  const covariance = normal.map((_, i) =>
    solveFactored(
      factor,
      normal.map((_row, j) => (i === j ? 1 : 0)),
    ),
  );
  const residuals = observations.map((o) => o.right - dotProduct(o.row, x));
  const redundancy = observations.map(({ row, sigma }) =>
    Math.max(0, 1 - dotProduct(row, solveFactored(factor, row)) / sigma ** 2),
  );
  const squares = residuals.reduce(
    (sum, v, i) => sum + (v / (observations[i] as Observation).sigma) ** 2,
    0,
  );
  return {
    x,
    covariance,
    residuals,
    redundancy,
    misfit: Math.sqrt(squares / Math.max(0, observations.length - unknowns)),
  };
}

/**
 * A pivot this small beside its own diagonal is only what rounding left: the two columns are the
 * same.
 */
const LEAST_PIVOT_SHARE = 1e-10;

const isSingular = (factor: Factor, normal: Rows): boolean =>
  normal.some((row, i) => pivotOf(factor, i) < LEAST_PIVOT_SHARE * (row[i] as number));

const dotProduct = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, v, i) => sum + v * (b[i] as number), 0);
