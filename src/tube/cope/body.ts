import { rootsOf } from '../../geometry/polynomial.ts';
import { NO_DIRECTION, NOISE_MM } from '../../geometry/tolerance.ts';
import { along3, cross3, dot3, sub3, type Vec3 } from '../../geometry/vec3.ts';

/**
 * What a tube is pushed home against, solid throughout: a tube's wall keeps the branch out as its
 * whole round does. Millimetres, in the frame of the branch: its axis is z, away from the joint, and
 * its generator at 0 degrees lies at +x.
 */
export type Body =
  /** All that lies behind a plane, seen from where its normal (a unit vector) points. */
  | { readonly kind: 'plate'; readonly through: Vec3; readonly normal: Vec3 }
  /** A straight tube; `isHalf`: it begins at `through` and runs on along `direction` (unit). */
  | {
      readonly kind: 'tube';
      readonly through: Vec3;
      readonly direction: Vec3;
      readonly radiusMm: number;
      readonly isHalf?: true;
    }
  /** The bent stretch of a tube. */
  | BendBody;

export interface BendBody {
  readonly kind: 'bend';
  /** The middle of the bend, from which its centre line has its radius. */
  readonly centre: Vec3;
  /** Unit vectors at right angles: from the middle to the node, and along the tube there. */
  readonly outward: Vec3;
  readonly tangent: Vec3;
  readonly bendRadiusMm: number;
  readonly radiusMm: number;
  /** How far the bend goes on before and behind the node, degrees. */
  readonly beforeDeg: number;
  readonly behindDeg: number;
}

/**
 * The greatest z at which a line along the branch at (x, y) is still within a body: how far a
 * generator of the branch has to be cut back there. `undefined` where it passes beside the body.
 */
export function lastContact(body: Body, x: number, y: number): number | undefined {
  switch (body.kind) {
    case 'plate': {
      const { through, normal } = body;
      return dot3(normal, sub3(through, [x, y, 0])) / normal[2];
    }
    case 'tube':
      return lastInTube(body, x, y);
    case 'bend':
      return lastInBend(body, x, y);
  }
}

/** |q + z d|^2 = R^2, with the parts of point and branch axis that are square to the tube. */
const lastInTube = (
  { through, direction, radiusMm, isHalf }: Extract<Body, { kind: 'tube' }>,
  x: number,
  y: number,
): number | undefined => {
  const from = sub3([x, y, 0], through);
  const q = along3(from, direction, -dot3(from, direction));
  const d = along3([0, 0, 1], direction, -direction[2]);
  const [a, b, c] = [dot3(d, d), dot3(q, d), dot3(q, q) - radiusMm * radiusMm];
  // A line along the tube has no end in it; where the tube begins, whatever it grows on goes on.
  if (a < NO_DIRECTION)
    return isHalf === true && direction[2] < 0 ? undefined : c <= 0 ? Infinity : undefined;
  // A branch that only just covers the header touches it with its outermost generators; rounding
  // must not lift them off.
  const root = b * b - a * c;
  if (root < -NOISE_MM * radiusMm * a) return undefined;
  const z = (Math.sqrt(Math.max(0, root)) - b) / a;
  return isHalf === true && dot3(from, direction) + z * direction[2] < 0 ? undefined : z;
};

/**
 * A branch as thick as the bend grazes it with its outermost generators, where two roots meet in one
 * and rounding may leave none: a hair thicker, the bend has both, and the graze lies between them.
 */
const lastInBend = (bend: BendBody, x: number, y: number): number | undefined => {
  const met = meetings(bend, x, y).at(-1);
  if (met !== undefined) return met;
  const [first, last] = meetings({ ...bend, radiusMm: bend.radiusMm + NOISE_MM }, x, y).slice(-2);
  return first === undefined || last === undefined ? undefined : (first + last) / 2;
};

/**
 * A line and a torus of radii A and r about the axis w: (|p|^2 + A^2 - r^2)^2 = 4 A^2 (|p|^2 -
 * (p.w)^2), of the fourth degree in z. Of its roots count those on the stretch of the bend.
 */
const meetings = (bend: BendBody, x: number, y: number): readonly number[] => {
  const { centre, outward, tangent, bendRadiusMm: big, radiusMm: small } = bend;
  const w = cross3(outward, tangent);
  const p = sub3([x, y, 0], centre);
  // |p + z k|^2 = z^2 + 2 h z + g; (p + z k).w = m + n z.
  const [g, h, m, n] = [dot3(p, p), p[2], dot3(p, w), w[2]];
  const e = g + big * big - small * small;
  const four = 4 * big * big;
  const roots = rootsOf([
    e * e - four * (g - m * m),
    4 * h * e - four * (2 * h - 2 * m * n),
    4 * h * h + 2 * e - four * (1 - n * n),
    4 * h,
    1,
  ]);
  return roots.filter((z) => {
    const at = along3(p, [0, 0, 1], z);
    const deg = (Math.atan2(dot3(at, tangent), dot3(at, outward)) * 180) / Math.PI;
    return deg >= -bend.beforeDeg - NO_DIRECTION && deg <= bend.behindDeg + NO_DIRECTION;
  });
};
