import { distance, type Vec2 } from '../../src/geometry/vec2.ts';

/** A transition in plan with its height, on the middle of the sheet. */
export interface Plan {
  readonly w: number;
  readonly d: number;
  readonly diameter: number;
  readonly h: number;
  readonly x: number;
  readonly y: number;
  readonly n: number;
}

/** Corners in the order front right, back right, back left, front left. */
export const cornersOf = ({ w, d }: Plan): Vec2[] => [
  [w / 2, -d / 2],
  [w / 2, d / 2],
  [-w / 2, d / 2],
  [-w / 2, -d / 2],
];

export const divisionOf = ({ diameter, x, y, n }: Plan, i: number): Vec2 => {
  const a = (2 * Math.PI * i) / n - Math.PI / 2;
  return [x + (diameter / 2) * Math.cos(a), y + (diameter / 2) * Math.sin(a)];
};

/**
 * True length: TL = sqrt(plan^2 + height^2) (Coey, Pattern Development: Sheet Metal Level 1, ch.
 * 24).
 */
export const trueLength = ({ h }: Plan, a: Vec2, b: Vec2): number => Math.hypot(distance(a, b), h);

/**
 * The point that compasses give: `ra` from a and `rb` from b, on the left of the line from a to b.
 */
const compass = (a: Vec2, b: Vec2, ra: number, rb: number): Vec2 => {
  const l = distance(a, b);
  const along = (ra * ra - rb * rb + l * l) / (2 * l);
  const off = Math.sqrt(ra * ra - along * along);
  const [ux, uy] = [(b[0] - a[0]) / l, (b[1] - a[1]) / l];
  return [a[0] + along * ux - off * uy, a[1] + along * uy + off * ux];
};

/**
 * The pattern laid out triangle by triangle from the seam in the middle of the front, from true
 * lengths alone.
 */
export const drawn = (plan: Plan): Vec2[] => {
  const { n, d, h } = plan;
  const corners = cornersOf(plan);
  const quarter = n / 4;
  const middle: Vec2 = [0, -d / 2];
  const base: Vec2[] = [[0, 0]];
  const rim: Vec2[] = [[0, Math.hypot(distance(middle, divisionOf(plan, 0)), h)]];
  const step = distance(divisionOf(plan, 0), divisionOf(plan, 1));
  const last = (points: Vec2[]): Vec2 => points[points.length - 1] as Vec2;
  // Seen from inside, the next triangle lies to the left.
  corners.forEach((corner, side) => {
    const from = side === 0 ? middle : (corners[side - 1] as Vec2);
    base.push(
      compass(
        last(base),
        last(rim),
        distance(from, corner),
        trueLength(plan, corner, divisionOf(plan, side * quarter)),
      ),
    );
    for (let i = side * quarter + 1; i <= (side + 1) * quarter; i++) {
      rim.push(compass(last(base), last(rim), trueLength(plan, corner, divisionOf(plan, i)), step));
    }
  });
  base.push(
    compass(
      last(base),
      last(rim),
      distance(corners[3] as Vec2, middle),
      Math.hypot(distance(middle, divisionOf(plan, n)), h),
    ),
  );
  return [...rim, ...base.reverse()];
};

/**
 * The surface itself: between a corner c and a quarter of the circle p(a) stands an oblique cone,
 * the tangent developable of lines through c. Its element of area is |(p - c) x p'| / 2 da, the
 * angle it opens in the flat
 * |(p - c) x p'| / |p - c|^2 da, and the circle keeps its length (differential geometry of ruled surfaces).
 */
export const analytic = (plan: Plan): { areaMm2: number; openedRad: number } => {
  const steps = 4000;
  let [areaMm2, openedRad] = [0, 0];
  cornersOf(plan).forEach((c, side) => {
    for (let i = 0; i <= steps; i++) {
      const a = -Math.PI / 2 + (Math.PI / 2) * (side + i / steps);
      const r = plan.diameter / 2;
      const g = [plan.x + r * Math.cos(a) - c[0], plan.y + r * Math.sin(a) - c[1], plan.h] as const;
      const dp = [-r * Math.sin(a), r * Math.cos(a)] as const;
      const turn = Math.hypot(g[2] * dp[1], g[2] * dp[0], g[0] * dp[1] - g[1] * dp[0]);
      // Simpson's rule with these weights.
      const weight =
        ((i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2) * (Math.PI / 2)) / steps / 3;
      areaMm2 += (weight * turn) / 2;
      openedRad += (weight * turn) / (g[0] ** 2 + g[1] ** 2 + g[2] ** 2);
    }
  });
  // The flat triangles: half of each side of the rectangle times the true height of the tip over
  // it.
  const flats = cornersOf(plan).map((corner, side) => {
    const tip = divisionOf({ ...plan, n: 4 }, side);
    const along = side % 2;
    return (
      ([plan.w, plan.d][along] as number) *
      0.5 *
      Math.hypot((tip[1 - along] as number) - (corner[1 - along] as number), plan.h)
    );
  });
  return { areaMm2: areaMm2 + sum(flats), openedRad };
};

export const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
