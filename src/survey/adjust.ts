import type { Vec2 } from '../geometry/vec2.ts';
import { cholesky, type Rows, solveFactored, zeroRow, zeroRows } from '../statistics/linear.ts';
import { at, costOf, type Figure, type Network } from './network.ts';
import { EXACT_MM } from '../geometry/tolerance.ts';

/** A figure and the sum of its squared residuals, mm2. */
export interface Fit {
  readonly figure: Figure;
  readonly cost: number;
}

const MOST_STEPS = 200;
/**
 * The figure stands still when the pull on every point is below this share of the longest distance,
 * which is rounding.
 */
const STILL_SHARE = 1e-12;
/** First value of the damping, and how far it is eased: the start is usually near the answer. */
const FIRST_DAMPING = 1e-3;
const LEAST_DAMPING = 1e-6;
const MOST_DAMPING = 1e9;

/**
 * The least-squares figure next to `start`: Newton steps damped as by Levenberg and Marquardt. The
 * whole second derivative is used, not the Gauss-Newton part alone, because points in line leave
 * that part singular. Damping also takes care of shifts and turns of the whole figure, which change
 * no distance.
 */
export function adjust(net: Network, start: Figure): Fit {
  let figure = start;
  let cost = costOf(net, figure);
  let damping = FIRST_DAMPING;
  const still = STILL_SHARE * Math.max(...net.ties.map((t) => t.mm));
  for (let step = 0; step < MOST_STEPS && damping < MOST_DAMPING; step += 1) {
    const slope = slopeOf(net, figure);
    if (slope.gradient.every((g) => Math.abs(g) < still)) break;
    const move = damped(slope, damping);
    const moved =
      move === undefined
        ? undefined
        : figure.map(([x, y], i): Vec2 => [
            x - (move[2 * i] as number),
            y - (move[2 * i + 1] as number),
          ]);
    const next = moved === undefined ? Infinity : costOf(net, moved);
    if (moved !== undefined && next <= cost) {
      [figure, cost] = [moved, next];
      damping = Math.max(damping / 8, LEAST_DAMPING);
    } else {
      damping *= 5;
    }
  }
  return { figure, cost };
}

interface Slope {
  readonly gradient: number[];
  readonly hessian: Rows;
}

/**
 * Half the gradient and half the Hessian of the cost. For a tie of found length d, measured m, unit
 * vector u: gradient (d - m) u, Hessian u u' + (1 - m/d) (I - u u'), by differentiating (d - m)^2 /
 * 2 twice.
 */
function slopeOf({ ties }: Network, figure: Figure): Slope {
  const gradient = zeroRow(2 * figure.length);
  const hessian = zeroRows(2 * figure.length, 2 * figure.length);
  const addTo = (row: number, column: number, value: number): void => {
    const line = hessian[row] as number[];
    line[column] = (line[column] as number) + value;
  };
  for (const { a, b, mm } of ties) {
    const [ax, ay] = at(figure, a);
    const [bx, by] = at(figure, b);
    const found = Math.hypot(ax - bx, ay - by);
    const u =
      found > EXACT_MM ? ([(ax - bx) / found, (ay - by) / found] as const) : ([1, 0] as const);
    const across = found > EXACT_MM ? 1 - mm / found : 0;
    for (const i of [0, 1] as const) {
      gradient[2 * a + i] = (gradient[2 * a + i] as number) + (found - mm) * u[i];
      gradient[2 * b + i] = (gradient[2 * b + i] as number) - (found - mm) * u[i];
      for (const j of [0, 1] as const) {
        const k = u[i] * u[j] + across * ((i === j ? 1 : 0) - u[i] * u[j]);
        addTo(2 * a + i, 2 * a + j, k);
        addTo(2 * b + i, 2 * b + j, k);
        addTo(2 * a + i, 2 * b + j, -k);
        addTo(2 * b + i, 2 * a + j, -k);
      }
    }
  }
  return { gradient, hessian };
}

function damped({ gradient, hessian }: Slope, damping: number): number[] | undefined {
  const factor = cholesky(hessian.map((row, i) => row.map((v, j) => (i === j ? v + damping : v))));
  return factor === undefined ? undefined : solveFactored(factor, gradient);
}
