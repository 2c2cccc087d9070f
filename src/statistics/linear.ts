/** A square matrix or a list of rows. */
export type Rows = number[][];

export const zeroRow = (length: number): number[] => Array.from({ length }, () => 0);

export const zeroRows = (rows: number, columns: number): Rows =>
  Array.from({ length: rows }, () => zeroRow(columns));

const get = (rows: Rows, i: number, j: number): number => (rows[i] as number[])[j] as number;

/**
 * The lower Cholesky factor of a symmetric matrix, or `undefined` where it is not positive
 * definite.
 */
export function cholesky(matrix: Rows): Rows | undefined {
  const size = matrix.length;
  const factor = zeroRows(size, size);
  for (let i = 0; i < size; i += 1) {
    const row = factor[i] as number[];
    for (let j = 0; j <= i; j += 1) {
      let sum = get(matrix, i, j);
      for (let k = 0; k < j; k += 1) sum -= (row[k] as number) * get(factor, j, k);
      if (i === j && !(sum > 0)) return undefined;
      row[j] = i === j ? Math.sqrt(sum) : sum / get(factor, j, j);
    }
  }
  return factor;
}

/** Solves L L' x = right for the Cholesky factor L. */
export function solveFactored(factor: Rows, right: readonly number[]): number[] {
  const size = factor.length;
  const x = [...right];
  for (let i = 0; i < size; i += 1) {
    for (let k = 0; k < i; k += 1) x[i] = (x[i] as number) - get(factor, i, k) * (x[k] as number);
    x[i] = (x[i] as number) / get(factor, i, i);
  }
  for (let i = size - 1; i >= 0; i -= 1) {
    for (let k = i + 1; k < size; k += 1)
      x[i] = (x[i] as number) - get(factor, k, i) * (x[k] as number);
    x[i] = (x[i] as number) / get(factor, i, i);
  }
  return x;
}

/** Pivots below this, in rows of length about 1, are rounding. */
const PIVOT = 1e-9;

/**
 * A basis of all x with `rows` x = 0, by Gauss-Jordan elimination with complete pivoting; each
 * vector of length 1.
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
