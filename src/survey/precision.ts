import { sub } from '../geometry/vec2.ts';
import { framePoints } from './frame.ts';
import {
  cholesky,
  type Factor,
  type Rows,
  solveFactored,
  zeroRow,
  zeroRows,
} from '../statistics/linear.ts';
import { at, type Figure, foundMm, type Network, type Tie } from './network.ts';

/** How a small change of the distances moves a rigid figure in its own frame. */
export interface Precision {
  /**
   * Half the long axis of the error ellipse of a point, mm for every mm that a distance may be off.
   */
  readonly mmPerMm: (point: number) => number;
  /**
   * The share of an error in this tie that shows in its own residual: 0 unchecked, 1 fully checked
   * by others.
   */
  readonly checked: (tie: Tie) => number;
}

/** Keeps points in line from dividing by zero; their movements come out large instead. */
const LEAST_PIVOT = 1e-9;

/**
 * Covariance of the coordinates for distances of unit variance: the inverse of the normal matrix
 * J'J without the coordinates that the frame fixes, and the redundancy numbers 1 - j (J'J)^-1 j'
 * (any textbook on adjustment computations; from memory).
 */
export function precisionOf(net: Network, figure: Figure, rigid: readonly number[]): Precision {
  const { first, second } = framePoints(figure, rigid);
  const columns = new Map<string, number>();
  for (const p of rigid) {
    if (p !== first) columns.set(`${p}x`, columns.size);
    if (p !== first && p !== second) columns.set(`${p}y`, columns.size);
  }
  const rows = net.ties.map((tie) => rowOf(tie, figure, columns));
  const normal: Rows = zeroRows(columns.size, columns.size);
  for (const row of rows) addSquare(normal, row);
  normal.forEach((line, i) => (line[i] = (line[i] as number) + LEAST_PIVOT));
  const factor = cholesky(normal) as Factor;
  const solved = (right: readonly number[]): number[] => solveFactored(factor, right);
  const cofactor = (p: string, q: string): number => {
    const [i, j] = [columns.get(p), columns.get(q)];
    if (i === undefined || j === undefined) return 0;
    return solved(normal.map((_, k) => (k === j ? 1 : 0)))[i] as number;
  };
  return {
    mmPerMm: (point) =>
      Math.sqrt(
        largestOf(
          cofactor(`${point}x`, `${point}x`),
          cofactor(`${point}x`, `${point}y`),
          cofactor(`${point}y`, `${point}y`),
        ),
      ),
    checked: (tie) => {
      const row = rowOf(tie, figure, columns);
      return Math.max(0, 1 - solved(row).reduce((sum, v, i) => sum + v * (row[i] as number), 0));
    },
  };
}

function rowOf(tie: Tie, figure: Figure, columns: ReadonlyMap<string, number>): number[] {
  const row = zeroRow(columns.size);
  const long = foundMm(figure, tie);
  if (long === 0) return row;
  const [dx, dy] = sub(at(figure, tie.a), at(figure, tie.b));
  for (const [column, value] of [
    [`${tie.a}x`, dx],
    [`${tie.a}y`, dy],
    [`${tie.b}x`, -dx],
    [`${tie.b}y`, -dy],
  ] as const) {
    const place = columns.get(column);
    if (place !== undefined) row[place] = value / long;
  }
  return row;
}

function addSquare(normal: Rows, row: readonly number[]): void {
  row.forEach((v, i) => {
    const line = normal[i] as number[];
    if (v !== 0) row.forEach((w, j) => (line[j] = (line[j] as number) + v * w));
  });
}

/** The larger eigenvalue of the symmetric matrix [[a, b], [b, c]]. */
const largestOf = (a: number, b: number, c: number): number =>
  (a + c) / 2 + Math.hypot((a - c) / 2, b);
