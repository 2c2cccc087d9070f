/** A square matrix or a list of rows. */
export type Rows = number[][];

export const zeroRow = (length: number): number[] => Array.from({ length }, () => 0);

export const zeroRows = (rows: number, columns: number): Rows =>
  Array.from({ length: rows }, () => zeroRow(columns));

const get = (rows: Rows, i: number, j: number): number => (rows[i] as number[])[j] as number;

/** The lower triangle L of a matrix L L', row by row; the entries above it mean nothing. */
export interface Factor {
  readonly size: number;
  readonly lower: Float64Array;
}

/**
 * Cholesky's factor of a symmetric matrix, or `undefined` where the matrix is not positive
 * definite. The matrix itself is left unchanged.
 */
export function cholesky(matrix: Rows): Factor | undefined {
  const factor = { size: matrix.length, lower: Float64Array.from(matrix.flat()) };
  return factorInPlace(factor) ? factor : undefined;
}

/**
 * Replaces a symmetric matrix by its Cholesky factor; false where the matrix is not positive
 * definite. Damping is added to the diagonal and makes it positive definite in every case: the
 * pivot of a column that depends on others is then no smaller than the damping.
 */
export function factorInPlace({ size, lower }: Factor, damping = 0): boolean {
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let sum = (lower[size * i + j] as number) + (i === j ? damping : 0);
      for (let k = 0; k < j; k += 1)
        sum -= (lower[size * i + k] as number) * (lower[size * j + k] as number);
      if (i !== j) lower[size * i + j] = sum / (lower[size * j + j] as number);
      else if (sum > 0 || damping > 0) lower[size * i + i] = Math.sqrt(Math.max(sum, damping));
      else return false;
    }
  }
  return true;
}

/**
 * The square of a column's pivot: the part of its diagonal that the columns before it do not
 * account for.
 */
export const pivotOf = ({ size, lower }: Factor, column: number): number =>
  (lower[size * column + column] as number) ** 2;

/** Solves L L' x = right for the Cholesky factor L. */
export const solveFactored = (factor: Factor, right: readonly number[]): number[] => {
  const x = [...right];
  solveInPlace(factor, x);
  return x;
};

/** Replaces the right side by the x of L L' x = right. */
export function solveInPlace({ size, lower }: Factor, x: Float64Array | number[]): void {
  for (let i = 0; i < size; i += 1) {
    let sum = x[i] as number;
    for (let k = 0; k < i; k += 1) sum -= (lower[size * i + k] as number) * (x[k] as number);
    x[i] = sum / (lower[size * i + i] as number);
  }
  for (let i = size - 1; i >= 0; i -= 1) {
    let sum = x[i] as number;
    for (let k = i + 1; k < size; k += 1) sum -= (lower[size * k + i] as number) * (x[k] as number);
    x[i] = sum / (lower[size * i + i] as number);
  }
}

/** Pivots below this, in rows of length about 1, are rounding. */
const PIVOT = 1e-9;

/**
 * A basis of all x with `rows` x = 0, by Gauss-Jordan elimination with complete pivoting; each
 * vector has length 1.
 */
export function nullSpace(rows: Rows, columns: number): Rows {
  const work = rows.map((row) => [...row]);
  const pivotColumns: number[] = [];
  const isTaken = Array.from({ length: columns }, () => false);
  for (let rank = 0; rank < work.length; rank += 1) {
    const best = largest(work, rank, columns, isTaken);
    if (best.size < PIVOT) break;
    [work[rank], work[best.row]] = [work[best.row] as number[], work[rank] as number[]];
    clearColumn(work, rank, best.column);
    pivotColumns.push(best.column);
    isTaken[best.column] = true;
  }
  const free = Array.from({ length: columns }, (_, c) => c).filter((c) => isTaken[c] !== true);
  return free.map((column) => {
    const vector = zeroRow(columns);
    vector[column] = 1;
    pivotColumns.forEach((pivot, r) => (vector[pivot] = -get(work, r, column)));
    const long = Math.hypot(...vector);
    return vector.map((v) => v / long);
  });
}

function largest(
  work: Rows,
  from: number,
  columns: number,
  isTaken: readonly boolean[],
): { size: number; row: number; column: number } {
  const best = { size: 0, row: from, column: 0 };
  for (let row = from; row < work.length; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const size = Math.abs(get(work, row, column));
      if (size > best.size && isTaken[column] !== true) Object.assign(best, { size, row, column });
    }
  }
  return best;
}

function clearColumn(work: Rows, pivotRow: number, column: number): void {
  const scaled = (work[pivotRow] as number[]).map((v) => v / get(work, pivotRow, column));
  work[pivotRow] = scaled;
  work.forEach((row, r) => {
    const factor = row[column] as number;
    if (r !== pivotRow && factor !== 0)
      work[r] = row.map((v, c) => v - factor * (scaled[c] as number));
  });
}
