import { cosDeg, sinDeg } from '../geometry/degrees.ts';
import { cross3, dot3, sub3, type Vec3 } from '../geometry/vec3.ts';
import { normalOf, type Solid } from '../geometry/convex-solid.ts';
import { turnContact } from './turn-contact.ts';

/**
 * The first angle, in degrees, at which a convex body that turns about the z axis by `turnDeg` (counter-clockwise,
 * positive) meets one that stays; `undefined` when it never does. Both must be apart before it turns. Exact: from
 * apart, two convex bodies can only meet where a corner of one reaches a face of the other, or an edge an edge; the
 * angles of both are roots of A cos + B sin = C.
 */
export function swingContact(turning: Solid, still: Solid, turnDeg: number): number | undefined {
  if (!canMeet(turning, still)) return undefined;
  // With the same section all along the axis, they meet where their sections do.
  if (turning.ring.isPrism && still.ring.isPrism) return turnContact(turning.shadow, still.shadow, turnDeg);
  let first = Infinity;
  const meet = (deg: number): void => {
    if (deg < first) first = deg;
  };
  cornersOnFaces(turning, still, 1, turnDeg, meet);
  cornersOnFaces(still, turning, -1, turnDeg, meet);
  edgesOnEdges(turning, still, turnDeg, meet);
  return first === Infinity ? undefined : first;
}

/** Bodies keep their heights along the axis and their distances from it. */
const canMeet = ({ ring: p }: Solid, { ring: q }: Solid): boolean => p.low < q.high && q.low < p.high && p.inner < q.outer && q.inner < p.outer;

/** Corners of `a` on faces of `b`; `sense` is 1 when `a` turns, -1 when `b` does. */
function cornersOnFaces(a: Solid, b: Solid, sense: 1 | -1, turnDeg: number, meet: (deg: number) => void): void {
  for (const face of b.faces) {
    const loop = face.map((i) => b.corners[i] as Vec3);
    const normal = normalOf(loop);
    const level = dot3(normal, loop[0] as Vec3);
    for (const p of a.corners) {
      const even = normal[0] * p[0] + normal[1] * p[1];
      const odd = normal[1] * p[0] - normal[0] * p[1];
      for (const deg of roots(even, sense * odd, level - normal[2] * p[2], turnDeg)) {
        if (isOnFace(turned(p, sense * deg), loop, normal)) meet(deg);
      }
    }
  }
}

function edgesOnEdges(turning: Solid, still: Solid, turnDeg: number, meet: (deg: number) => void): void {
  for (const [i, j] of turning.edges) {
    const p = turning.corners[i] as Vec3;
    const u = sub3(turning.corners[j] as Vec3, p);
    const m = cross3(p, u);
    for (const [k, l] of still.edges) {
      const q = still.corners[k] as Vec3;
      const v = sub3(still.corners[l] as Vec3, q);
      const w = cross3(v, q);
      // The edges lie in one plane when (Rp - q) . (Ru x v) = R(p x u) . v - Ru . (v x q) vanishes.
      const even = m[0] * v[0] + m[1] * v[1] - u[0] * w[0] - u[1] * w[1];
      const odd = m[0] * v[1] - m[1] * v[0] - u[0] * w[1] + u[1] * w[0];
      for (const deg of roots(even, odd, u[2] * w[2] - m[2] * v[2], turnDeg)) {
        if (edgesCross(turned(p, deg), turned(u, deg), q, v)) meet(deg);
      }
    }
  }
}

/** Angles from 0 to `most` degrees with A cos + B sin = C. None where all three vanish: then other pairs tell. */
function roots(a: number, b: number, c: number, most: number): number[] {
  const size = Math.hypot(a, b);
  if (size < 1e-9 || Math.abs(c) > size) return [];
  const mid = Math.atan2(b, a);
  const off = Math.acos(c / size);
  return [mid - off, mid + off].map((rad) => ((((rad * 180) / Math.PI) % 360) + 360) % 360).filter((deg) => deg <= most);
}

const turned = (p: Vec3, deg: number): Vec3 => {
  const [c, s] = [cosDeg(deg), sinDeg(deg)];
  return [c * p[0] - s * p[1], s * p[0] + c * p[1], p[2]];
};

const isOnFace = (p: Vec3, loop: readonly Vec3[], normal: Vec3): boolean =>
  loop.every((a, i) => dot3(cross3(sub3(loop[(i + 1) % loop.length] as Vec3, a), sub3(p, a)), normal) >= 0);

/** Whether two edges in one plane cross. Parallel ones meet with their ends on each other's faces instead. */
function edgesCross(p: Vec3, u: Vec3, q: Vec3, v: Vec3): boolean {
  const n = cross3(u, v);
  const square = dot3(n, n);
  if (square < 1e-18 * dot3(u, u) * dot3(v, v)) return false;
  const between = sub3(q, p);
  const s = dot3(cross3(between, v), n) / square;
  const t = dot3(cross3(between, u), n) / square;
  return s >= 0 && s <= 1 && t >= 0 && t <= 1;
}
