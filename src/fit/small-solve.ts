/**
 * Solves a small symmetric system in place, by Cholesky's factor; the matrix row by row, its
 * contents used up. Columns that others make up are damped: what they could do, the others do.
 */
export const choleskySolve = (matrix: Float64Array, right: Float64Array, x: Float64Array): void => {
  const n = right.length;
  let largest = 0;
  for (let i = 0; i < n; i += 1) largest = Math.max(largest, matrix[n * i + i] as number);
  const damping = DAMPING * (largest || 1);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let sum = (matrix[n * i + j] as number) + (i === j ? damping : 0);
      for (let k = 0; k < j; k += 1)
        sum -= (matrix[n * i + k] as number) * (matrix[n * j + k] as number);
      matrix[n * i + j] =
        i === j ? Math.sqrt(Math.max(sum, damping)) : sum / (matrix[n * j + j] as number);
    }
  }
  for (let i = 0; i < n; i += 1) {
    let sum = right[i] as number;
    for (let k = 0; k < i; k += 1) sum -= (matrix[n * i + k] as number) * (x[k] as number);
    x[i] = sum / (matrix[n * i + i] as number);
  }
  for (let i = n - 1; i >= 0; i -= 1) {
    let sum = x[i] as number;
    for (let k = i + 1; k < n; k += 1) sum -= (matrix[n * k + i] as number) * (x[k] as number);
    x[i] = sum / (matrix[n * i + i] as number);
  }
};

/** Far above rounding and far below what any motion does. */
const DAMPING = 1e-10;
