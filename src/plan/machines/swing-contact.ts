import { cross3, dot3, sub3, type Vec3 } from '../../geometry/vec3.ts';
import { normalOf, type Solid } from '../../geometry/convex-solid.ts';
import { sectorsMeet } from './bounding-cylinder.ts';
import { turnContact } from './turn-contact.ts';

/**
 * The first angle, in degrees, at which a convex body that turns about the z axis by `turnDeg`
 * (counter-clockwise when positive) meets one that stays still; `undefined` when it never does. The
 * two must be apart before the turn. The angle is exact: from apart, two convex bodies can only
 * meet where a corner of one reaches a face of the other, or an edge reaches an edge, and the
 * angles of both are roots of A cos + B sin = C.
 */
export function swingContact(turning: Solid, still: Solid, turnDeg: number): number | undefined {
  const most = (turnDeg * Math.PI) / 180;
  if (!canMeet(turning, still, most)) return undefined;
  // Bodies with the same section all along the axis meet where their sections do.
  if (turning.ring.isPrism && still.ring.isPrism)
    return turnContact(turning.shadow, still.shadow, turnDeg);
  // A contact later than the end of the turn does not count.
  const first: First = { rad: most + NO_ANGLE };
  cornersOnFaces(turning, still, 1, first);
  cornersOnFaces(still, turning, -1, first);
  edgesOnEdges(turning, still, first);
  return first.rad > most ? undefined : (first.rad * 180) / Math.PI;
}

/** The least angle found so far. */
interface First {
  rad: number;
}

/** An angle smaller than any difference that counts, radians. */
const NO_ANGLE = 1e-12;

/** Squares of sines near `PARALLEL_SINE`, and of numbers as small, are rounding. */
const NO_SQUARE = 1e-18;

/**
 * Whether two bodies can meet. Bodies keep their heights along the axis and their distances from
 * it, and pass only what lies ahead of them.
 */
const canMeet = ({ ring: p }: Solid, { ring: q }: Solid, turnRad: number): boolean =>
  p.low < q.high &&
  q.low < p.high &&
  p.inner < q.outer &&
  q.inner < p.outer &&
  sectorsMeet(p, q, turnRad);

/**
 * Angles at which corners of `a` lie on faces of `b`; `sense` is 1 when `a` turns, -1 when `b`
 * does.
 */
function cornersOnFaces(a: Solid, b: Solid, sense: 1 | -1, first: First): void {
  for (const face of b.faces) {
    const loop = face.map((i) => b.corners[i] as Vec3);
    const normal = normalOf(loop);
    const level = dot3(normal, loop[0] as Vec3);
    for (const p of a.corners) {
      const even = normal[0] * p[0] + normal[1] * p[1];
      const odd = normal[1] * p[0] - normal[0] * p[1];
      eachRoot(even, sense * odd, level - normal[2] * p[2], (rad) => {
        if (rad < first.rad && isOnFace(turned(p, sense * rad), loop, normal)) first.rad = rad;
      });
    }
  }
}

function edgesOnEdges(turning: Solid, still: Solid, first: First): void {
  const lines = still.edges.map(([k, l]) => {
    const q = still.corners[k] as Vec3;
    const v = sub3(still.corners[l] as Vec3, q);
    return { q, v, w: cross3(v, q) };
  });
  for (const [i, j] of turning.edges) {
    const p = turning.corners[i] as Vec3;
    const u = sub3(turning.corners[j] as Vec3, p);
    const m = cross3(p, u);
    for (const { q, v, w } of lines) {
      // The edges lie in one plane when (Rp - q) . (Ru x v) = R(p x u) . v - Ru . (v x q) vanishes.
      const even = m[0] * v[0] + m[1] * v[1] - u[0] * w[0] - u[1] * w[1];
      const odd = m[0] * v[1] - m[1] * v[0] - u[0] * w[1] + u[1] * w[0];
      eachRoot(even, odd, u[2] * w[2] - m[2] * v[2], (rad) => {
        if (rad < first.rad && edgesCross(turned(p, rad), turned(u, rad), q, v)) first.rad = rad;
      });
    }
  }
}

const FULL_TURN_RAD = 2 * Math.PI;

/**
 * Angles from 0 to a full turn with A cos + B sin = C. There are none where all three vanish, and
 * other pairs find the contact then.
 */
function eachRoot(a: number, b: number, c: number, tell: (rad: number) => void): void {
  const square = a * a + b * b;
  if (square < NO_SQUARE || c * c > square) return;
  const mid = Math.atan2(b, a);
  const off = Math.acos(c / Math.sqrt(square));
  tell(inRound(mid - off));
  tell(inRound(mid + off));
}

const inRound = (rad: number): number =>
  rad < 0 ? rad + FULL_TURN_RAD : rad >= FULL_TURN_RAD ? rad - FULL_TURN_RAD : rad;

const turned = (p: Vec3, rad: number): Vec3 => {
  const [c, s] = [Math.cos(rad), Math.sin(rad)];
  return [c * p[0] - s * p[1], s * p[0] + c * p[1], p[2]];
};

const isOnFace = (p: Vec3, loop: readonly Vec3[], normal: Vec3): boolean =>
  loop.every(
    (a, i) => dot3(cross3(sub3(loop[(i + 1) % loop.length] as Vec3, a), sub3(p, a)), normal) >= 0,
  );

/**
 * Whether two edges in one plane cross. Parallel edges meet with their ends on each other's faces
 * instead.
 */
function edgesCross(p: Vec3, u: Vec3, q: Vec3, v: Vec3): boolean {
  const n = cross3(u, v);
  const square = dot3(n, n);
  if (square < NO_SQUARE * dot3(u, u) * dot3(v, v)) return false;
  const between = sub3(q, p);
  const s = dot3(cross3(between, v), n) / square;
  const t = dot3(cross3(between, u), n) / square;
  return s >= 0 && s <= 1 && t >= 0 && t <= 1;
}
