import { cross3, dot3, length3, scale3, sub3 } from '../../src/template.ts';
import type { Vec2, Vec3 } from '../../src/template.ts';

/** All points p with `normal` . p = `atMm`; the normal has length 1. */
export interface Plane {
  readonly normal: Vec3;
  readonly atMm: number;
}

/** A flat face of a body, mm; its corners run counter-clockwise as seen from inside the body. */
export interface Facet {
  readonly name: string;
  readonly points: readonly Vec3[];
}

/** A closed body of flat faces, convex or not. */
export type Body = readonly Facet[];

/** The level plane at a height. */
export const levelAt = (heightMm: number): Plane => ({ normal: [0, 0, 1], atMm: heightMm });

/** How far two planes are turned against each other, by their normals, degrees. */
export const turnOfDeg = (one: Plane, other: Plane): number =>
  // An arc cosine would lose half its digits near 0.
  (Math.atan2(length3(cross3(one.normal, other.normal)), dot3(one.normal, other.normal)) * 180) /
  Math.PI;

/** How far a point lies beyond a plane, along its normal. */
export const beyondMm = ({ normal, atMm }: Plane, p: Vec3): number => dot3(normal, p) - atMm;

/** The point of a line at which it meets a plane; the line must not run along it. */
export const meet = (plane: Plane, from: Vec3, along: Vec3): Vec3 => {
  const share = -beyondMm(plane, from) / dot3(plane.normal, along);
  return [from[0] + share * along[0], from[1] + share * along[1], from[2] + share * along[2]];
};

/** The point that three planes share (Cramer's rule); they must not share a direction. */
export const meetOf = (a: Plane, b: Plane, c: Plane): Vec3 => {
  const [bc, ca, ab] = [
    cross3(b.normal, c.normal),
    cross3(c.normal, a.normal),
    cross3(a.normal, b.normal),
  ];
  const size = dot3(a.normal, bc);
  return [0, 1, 2].map(
    (i) =>
      ((bc[i] as number) * a.atMm + (ca[i] as number) * b.atMm + (ab[i] as number) * c.atMm) / size,
  ) as unknown as Vec3;
};

/**
 * Volume of the part of a body that lies below a plane, on the side from which its normal points
 * away, mm3. Every face is cut by the plane; what is left of them is the body's own surface but for
 * the cut, and the flow of p - q through the cut is nothing where q lies in it. So a third of the
 * flow through the faces is the volume (Gauss), whatever the shape, and no cut has to be closed. Of a
 * second plane that crosses the first the same holds, with q in both.
 */
export const volumeBelowMm3 = (body: Body, plane: Plane, beside?: Plane): number => {
  const q = beside === undefined ? scale3(plane.normal, plane.atMm) : onBoth(plane, beside);
  let flow = 0;
  for (const { points } of body) {
    const cut = below(points, plane);
    const left = beside === undefined ? cut : below(cut, beside);
    const [first] = left;
    if (first === undefined) continue;
    // The area vectors point into the body, so the flow out of it is their product reversed.
    flow -= dot3(sub3(first, q), areaVector(left));
  }
  return flow / 3;
};

/** A point of the line that two planes share. */
const onBoth = (one: Plane, other: Plane): Vec3 =>
  meetOf(one, other, { normal: cross3(one.normal, other.normal), atMm: 0 });

/** The whole volume, mm3. */
export const volumeMm3 = (body: Body): number => volumeBelowMm3(body, levelAt(reachMm(body)[1]));

/**
 * What a plane leaves of a flat loop on its lower side. Where the loop is not convex the parts may
 * hang together by lines there and back in the plane, which have no area.
 */
const below = (points: readonly Vec3[], plane: Plane): Vec3[] => {
  const left: Vec3[] = [];
  for (const [i, a] of points.entries()) {
    const b = points[(i + 1) % points.length] as Vec3;
    const [over, next] = [beyondMm(plane, a), beyondMm(plane, b)];
    if (over <= 0) left.push(a);
    if (over <= 0 !== next <= 0) {
      const share = over / (over - next);
      left.push([0, 1, 2].map((k) => mix(a, b, share, k)) as unknown as Vec3);
    }
  }
  return left;
};

const mix = (a: Vec3, b: Vec3, share: number, k: number): number =>
  (a[k] as number) + share * ((b[k] as number) - (a[k] as number));

/** A loop's area times its normal, about its first corner so that few digits are lost (Newell). */
export const areaVector = (points: readonly Vec3[]): Vec3 => {
  const [first = [0, 0, 0]] = points as readonly [Vec3?];
  let sum: Vec3 = [0, 0, 0];
  for (let i = 1; i + 1 < points.length; i++) {
    const c = cross3(sub3(points[i] as Vec3, first), sub3(points[i + 1] as Vec3, first));
    sum = [sum[0] + c[0] / 2, sum[1] + c[1] / 2, sum[2] + c[2] / 2];
  }
  return sum;
};

/** The lowest and the highest point of a body, mm. */
export const reachMm = (body: Body): readonly [lowMm: number, highMm: number] => {
  const heights = body.flatMap(({ points }) => points.map((p) => p[2]));
  return [Math.min(...heights), Math.max(...heights)];
};

/** Halvings of a height after which no digit of a double is left to find. */
export const HALVINGS = 60;

/** The level that a volume reaches, mm; the bottom or the brim for what is less or more. */
export const levelOfMm = (body: Body, mm3: number): number => {
  let [low, high] = reachMm(body);
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (volumeBelowMm3(body, levelAt(middle)) < mm3) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};

/** Where a plumb line at a place of the plan enters the body from below and leaves it last. */
export interface Rod {
  readonly lowMm: number;
  readonly highMm: number;
}

/**
 * The plumb line through a place of the plan, from where it enters the body to where it leaves it
 * last; missing where it goes past the body. Upright faces have no width in plan, and it meets none.
 */
export const rodAt = (body: Body, place: Vec2): Rod | undefined => rodsOf(body)(place);

/** The same for many places of one body. */
export const rodsOf = (body: Body): ((place: Vec2) => Rod | undefined) => {
  const faces = body.flatMap(({ points }) => {
    const n = areaVector(points);
    const [first] = points;
    return n[2] === 0 || first === undefined ? [] : [{ points, n, first }];
  });
  return (place) => {
    let [lowMm, highMm, met] = [Infinity, -Infinity, 0];
    for (const { points, n, first } of faces) {
      if (!isOver(points, place)) continue;
      const at = first[2] - (n[0] * (place[0] - first[0]) + n[1] * (place[1] - first[1])) / n[2];
      lowMm = Math.min(lowMm, at);
      highMm = Math.max(highMm, at);
      met += 1;
    }
    return met < 2 ? undefined : { lowMm, highMm };
  };
};

/** Whether a place lies within a loop as it is seen from above: an odd number of edges lie right of it. */
const isOver = (points: readonly Vec3[], [x, y]: Vec2): boolean => {
  let isIn = false;
  let b = points.at(-1) as Vec3;
  for (const a of points) {
    if (b[1] <= y !== a[1] <= y && b[0] + ((y - b[1]) / (a[1] - b[1])) * (a[0] - b[0]) > x)
      isIn = !isIn;
    b = a;
  }
  return isIn;
};
