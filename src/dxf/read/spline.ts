import type { CurvePoint } from '../../geometry/arcs-along.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Conic, Spline } from './primitive.ts';

export const conicPoint = ({ centre, u, v, from, to }: Conic, t: number): CurvePoint => {
  const [c, s] = [Math.cos(t), Math.sin(t)];
  const side = Math.sign(to - from);
  return {
    at: [centre[0] + c * u[0] + s * v[0], centre[1] + c * u[1] + s * v[1]],
    toward: [side * (c * v[0] - s * u[0]), side * (c * v[1] - s * u[1])],
  };
};

type Homogeneous = readonly [x: number, y: number, w: number];

/**
 * A point of a B-spline by de Boor's algorithm, on points with their weights as a third coordinate.
 * The last step but one gives the derivative as well (L. Piegl and W. Tiller, The NURBS Book,
 * chapters 3 and 4; from memory). `span` is the index of the knot at which the stretch begins.
 */
export const splinePoint = (spline: Spline, span: number, t: number): CurvePoint => {
  const { degree, knots } = spline;
  let row = Array.from({ length: degree + 1 }, (_, j): Homogeneous =>
    homogeneous(spline, span - degree + j),
  );
  for (let level = 1; level < degree; level++) row = step(row, spline, span, t, level);
  const [a, b] = row as [Homogeneous, Homogeneous];
  const [start, end] = [knots[span] as number, knots[span + 1] as number];
  const share = (t - start) / (end - start);
  const p: Homogeneous = [mix(a[0], b[0], share), mix(a[1], b[1], share), mix(a[2], b[2], share)];
  // The derivative of the quotient x / w is (x' - (x / w) w') / w; its length does not matter.
  const at: Vec2 = [p[0] / p[2], p[1] / p[2]];
  return {
    at,
    toward: [
      (b[0] - a[0] - at[0] * (b[2] - a[2])) / p[2],
      (b[1] - a[1] - at[1] * (b[2] - a[2])) / p[2],
    ],
  };
};

const mix = (a: number, b: number, share: number): number => a + share * (b - a);

const homogeneous = ({ points, weights }: Spline, i: number): Homogeneous => {
  const [[x, y], w] = [points[i] as Vec2, weights[i] as number];
  return [x * w, y * w, w];
};

const step = (
  row: readonly Homogeneous[],
  { degree, knots }: Spline,
  span: number,
  t: number,
  level: number,
): Homogeneous[] =>
  row.slice(1).map((b, j) => {
    const a = row[j] as Homogeneous;
    const [low, high] = [knots[span - degree + level + j] as number, knots[span + 1 + j] as number];
    const share = high === low ? 0 : (t - low) / (high - low);
    return [mix(a[0], b[0], share), mix(a[1], b[1], share), mix(a[2], b[2], share)];
  });

/** The stretches between knots that differ, by the index of the knot before each. */
export const splineSpans = ({ degree, knots, points }: Spline): number[] => {
  const spans: number[] = [];
  for (let i = degree; i < points.length; i++)
    if ((knots[i + 1] as number) > (knots[i] as number)) spans.push(i);
  return spans;
};
