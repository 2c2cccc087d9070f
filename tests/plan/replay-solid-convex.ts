import earcut from 'earcut';
import { inflatePathsD, EndType, JoinType, type PathD } from 'clipper2-ts';

/** Millimetres, or a direction. */
export type Vec = readonly [number, number, number];
export type Flat = readonly [number, number];

/**
 * A convex body: its corners, the directions its faces look in and those its edges run in (asked
 * for when it is near something), and the upright box round it.
 */
export interface Convex extends Box {
  readonly corners: readonly Vec[];
  readonly normals: () => readonly Vec[];
  readonly edges: () => readonly Vec[];
}

/** An upright box. */
export interface Box {
  readonly low: Vec;
  readonly high: Vec;
}

export const isApart = (a: Box, b: Box): boolean =>
  a.low[0] >= b.high[0] ||
  b.low[0] >= a.high[0] ||
  a.low[1] >= b.high[1] ||
  b.low[1] >= a.high[1] ||
  a.low[2] >= b.high[2] ||
  b.low[2] >= a.high[2];

/** Whether some body of one is met by some of the other. */
export const meet = (some: readonly Convex[], others: readonly Convex[]): boolean =>
  some.some((a) => others.some((b) => overlap(a, b)));

export const minus = (a: Vec, b: Vec): Vec => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const plus = (a: Vec, b: Vec): Vec => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const cross = (a: Vec, b: Vec): Vec => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

export const convex = (
  corners: readonly Vec[],
  normals: () => readonly Vec[],
  edges: () => readonly Vec[],
): Convex => ({ corners, normals: asked(normals), edges: asked(edges), ...boxRound(corners) });

export const boxRound = (points: readonly Vec[]): Box => {
  let [x0, y0, z0, x1, y1, z1] = [Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity];
  for (const [x, y, z] of points) {
    if (x < x0) x0 = x;
    if (y < y0) y0 = y;
    if (z < z0) z0 = z;
    if (x > x1) x1 = x;
    if (y > y1) y1 = y;
    if (z > z1) z1 = z;
  }
  return { low: [x0, y0, z0], high: [x1, y1, z1] };
};

const asked = <T>(find: () => T): (() => T) => {
  let found: T | undefined;
  return () => (found ??= find());
};

/**
 * What lies between two loops of as many corners, one over the other; its sides may be very
 * slightly warped.
 */
export const between = (below: readonly Vec[], above: readonly Vec[]): Convex => {
  const steps = (loop: readonly Vec[]): Vec[] =>
    loop.map((c, i) => minus(loop[(i + 1) % loop.length] as Vec, c));
  const posts = (): Vec[] => below.map((c, i) => minus(above[i] as Vec, c));
  const sides = (): Vec[] =>
    steps(below).map((step, i) => cross(step, minus(above[i] as Vec, below[i] as Vec)));
  return convex(
    [...below, ...above],
    () => [faceOf(below), faceOf(above), ...sides()],
    () => distinct([...steps(below), ...steps(above), ...posts()]),
  );
};

/** The area a loop goes round: corners on a straight line do it no harm. */
const faceOf = (loop: readonly Vec[]): Vec => {
  const [first] = loop as [Vec];
  return loop.reduce<Vec>(
    (n, c, i) => plus(n, cross(minus(c, first), minus(loop[(i + 1) % loop.length] as Vec, first))),
    [0, 0, 0],
  );
};

/** Of directions that run alike, one. */
const distinct = (directions: readonly Vec[]): readonly Vec[] => {
  const units = directions.map((d): Vec => [
    d[0] / Math.hypot(...d),
    d[1] / Math.hypot(...d),
    d[2] / Math.hypot(...d),
  ]);
  return units.filter(
    (u, i) => units.findIndex((v) => Math.hypot(...cross(u, v)) < LEAST_AXIS) === i,
  );
};

/**
 * A convex section of a machine, the same along z; without ends to speak of when none are given.
 */
export const bar = (
  section: readonly Flat[],
  ends?: readonly [from: number, to: number],
): Convex => {
  const [from, to] = ends ?? [-NO_END_MM, NO_END_MM];
  const whole = between(
    section.map(([x, y]): Vec => [x, y, from]),
    section.map(([x, y]): Vec => [x, y, to]),
  );
  // Against a body without ends only what is square to z can part.
  return ends === undefined
    ? convex(
        whole.corners,
        () => whole.normals().slice(2),
        () => [[0, 0, 1]],
      )
    : whole;
};

const NO_END_MM = 1e4;

/** Whether two convex bodies overlap: when no direction parts them (separating axis theorem). */
export const overlap = (a: Convex, b: Convex): boolean => {
  if (isApart(a, b)) return false;
  if (a.normals().some((n) => parts(n, a, b)) || b.normals().some((n) => parts(n, a, b)))
    return false;
  return !a.edges().some((e) => b.edges().some((f) => parts(cross(e, f), a, b)));
};

/** Shorter ones are no directions: edges that run alike. */
const LEAST_AXIS = 1e-9;

const parts = (axis: Vec, a: Convex, b: Convex): boolean => {
  if (axis[0] ** 2 + axis[1] ** 2 + axis[2] ** 2 < LEAST_AXIS) return false;
  return lowest(a, axis, 1) >= -lowest(b, axis, -1) || lowest(b, axis, 1) >= -lowest(a, axis, -1);
};

const lowest = ({ corners }: Convex, [x, y, z]: Vec, sign: 1 | -1): number => {
  let low = Infinity;
  for (const c of corners) {
    const d = sign * (x * c[0] + y * c[1] + z * c[2]);
    if (d < low) low = d;
  }
  return low;
};

/** A rigid motion. */
export type Place = (p: Vec) => Vec;

export interface Mover {
  readonly body: (body: Convex) => Convex;
  /** The upright box round a box that was moved. */
  readonly box: (box: Box) => Box;
}

/** The motion is asked for four points only. */
export const mover = (place: Place): Mover => {
  const o = place([0, 0, 0]);
  const [x, y, z] = [
    minus(place([1, 0, 0]), o),
    minus(place([0, 1, 0]), o),
    minus(place([0, 0, 1]), o),
  ];
  const turned = ([a, b, c]: Vec): Vec => [
    a * x[0] + b * y[0] + c * z[0],
    a * x[1] + b * y[1] + c * z[1],
    a * x[2] + b * y[2] + c * z[2],
  ];
  const moved = (p: Vec): Vec => plus(turned(p), o);
  return {
    body: ({ corners, normals, edges }) =>
      convex(
        corners.map(moved),
        () => normals().map(turned),
        () => edges().map(turned),
      ),
    box: ({ low, high }) =>
      boxRound(
        [low, high].flatMap(([a]) =>
          [low, high].flatMap(([, b]) => [low, high].map(([, , c]) => moved([a, b, c]))),
        ),
      ),
  };
};

/** A convex section less a strip on all sides; empty when nothing is left. */
export const lessStrip = (section: readonly Flat[], mm: number): readonly Flat[] => {
  let left: readonly Flat[] = section;
  section.forEach(([ax, ay], i) => {
    const [bx, by] = section[(i + 1) % section.length] as Flat;
    const length = Math.hypot(bx - ax, by - ay);
    const inside = ([x, y]: Flat): number =>
      ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / length - mm;
    left = kept(left, inside);
  });
  return left;
};

/** Of a convex polygon what lies where a level is not negative. */
export const kept = (polygon: readonly Flat[], level: (p: Flat) => number): readonly Flat[] =>
  polygon.flatMap((p, i): Flat[] => {
    const q = polygon[(i + 1) % polygon.length] as Flat;
    const [here, there] = [level(p), level(q)];
    const share = here / (here - there);
    const at: Flat[] =
      here < 0 !== there < 0 ? [[p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])]] : [];
    return here < 0 ? at : [p, ...at];
  });

/** Any polygon less a strip on all sides, as convex ones side by side. */
export const insetPieces = (polygon: PathD, mm: number): readonly (readonly Flat[])[] =>
  (mm === 0
    ? [polygon]
    : inflatePathsD([polygon], -mm, JoinType.Miter, EndType.Polygon, 2, 6)
  ).flatMap(convexPieces);

export const convexPieces = (polygon: PathD): readonly (readonly Flat[])[] => {
  const points = polygon.map(({ x, y }): Flat => [x, y]);
  if (
    points.every(
      (p, i) =>
        turn(p, points[(i + 1) % points.length] as Flat, points[(i + 2) % points.length] as Flat) >=
        0,
    )
  )
    return [points];
  const corners = earcut(points.flat());
  return Array.from({ length: corners.length / 3 }, (_, i) =>
    corners.slice(3 * i, 3 * i + 3).map((k) => points[k] as Flat),
  ).map((tri) => (turn(...(tri as [Flat, Flat, Flat])) < 0 ? tri.toReversed() : tri));
};

const turn = (p: Flat, q: Flat, r: Flat): number =>
  (q[0] - p[0]) * (r[1] - q[1]) - (q[1] - p[1]) * (r[0] - q[0]);
