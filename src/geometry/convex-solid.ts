import { hullOf } from './convex-polygon.ts';
import { type Pose, posePoint } from './pose.ts';
import { NOISE_MM, PARALLEL_SINE, NO_DIRECTION } from './tolerance.ts';
import type { Vec2 } from './vec2.ts';
import { along3, cross3, dot3, length3, scale3, sub3, type Vec3 } from './vec3.ts';

/**
 * A convex body, mm: its corners, its faces as loops of corners, its edges as pairs. A body without
 * height has one face. What is asked of one body again and again is worked out once.
 */
export class Solid {
  #shadow: readonly Vec2[] | undefined;
  #ring: Ring | undefined;
  #directions: Directions | undefined;
  constructor(
    readonly corners: readonly Vec3[],
    readonly faces: readonly (readonly number[])[],
    readonly edges: readonly (readonly [number, number])[],
  ) {}

  /** The convex hull of the shadow on the xy plane. */
  get shadow(): readonly Vec2[] {
    return (this.#shadow ??= shadowOf(this.corners));
  }

  /** The heights and radii that the body keeps when it turns about the z axis. */
  get ring(): Ring {
    return (this.#ring ??= ringOf(this));
  }

  get directions(): Directions {
    return (this.#directions ??= directionsOf(this));
  }
}

/** The convex hull of the shadow of some points on the xy plane. */
export const shadowOf = (corners: readonly Vec3[]): Vec2[] =>
  hullOf(corners.map(([x, y]): Vec2 => [x, y]));

/** Directions of faces and edges, as unit vectors; one stands for several that are parallel. */
interface Directions {
  readonly normals: readonly Vec3[];
  readonly edges: readonly Vec3[];
}

const directionsOf = ({ corners, faces, edges }: Solid): Directions => ({
  normals: distinct(faces.map((face) => normalOf(face.map((i) => corners[i] as Vec3)))),
  edges: distinct(edges.map(([i, j]) => sub3(corners[j] as Vec3, corners[i] as Vec3))),
});

/**
 * The normal of a loop, not of unit length. It is taken over the whole loop, so that corners on a
 * straight line do no harm (Newell).
 */
export const normalOf = (loop: readonly Vec3[]): Vec3 => {
  let n: Vec3 = [0, 0, 0];
  for (let i = 0; i < loop.length; i++) {
    const c = cross3(loop[i] as Vec3, loop[(i + 1) % loop.length] as Vec3);
    n = [n[0] + c[0], n[1] + c[1], n[2] + c[2]];
  }
  return n;
};

/** Heights along the z axis, and distances from it, mm. */
export interface Ring {
  readonly low: number;
  readonly high: number;
  readonly inner: number;
  readonly outer: number;
  /**
   * The direction from the axis to the middle of the body's shadow, and how far the body reaches to
   * either side of it.
   */
  readonly rad: number;
  readonly halfRad: number;
  /** Whether the body has the same section all along the axis. */
  readonly isPrism: boolean;
}

const ringOf = ({ corners, edges }: Solid): Ring => {
  let [low, high, outer] = [Infinity, -Infinity, 0];
  for (const [x, y, z] of corners) {
    low = Math.min(low, z);
    high = Math.max(high, z);
    outer = Math.max(outer, Math.hypot(x, y));
  }
  const isAlongOrAcross = ([i, j]: readonly [number, number]): boolean => {
    const [a, b] = [corners[i] as Vec3, corners[j] as Vec3];
    return (
      Math.abs(a[2] - b[2]) < NOISE_MM ||
      (Math.abs(a[0] - b[0]) < NOISE_MM && Math.abs(a[1] - b[1]) < NOISE_MM)
    );
  };
  return {
    low,
    high,
    inner: nearestToAxis(corners),
    outer,
    ...sectorOf(corners),
    isPrism: high - low > NOISE_MM && edges.every(isAlongOrAcross),
  };
};

/**
 * The sector that a body takes up, by the circle round the middle of all its corners; a full turn
 * where the axis lies within that circle.
 */
const sectorOf = (corners: readonly Vec3[]): Pick<Ring, 'rad' | 'halfRad'> => {
  let [x, y] = [0, 0];
  for (const c of corners) {
    x += c[0] / corners.length;
    y += c[1] / corners.length;
  }
  const radius = Math.sqrt(Math.max(...corners.map((c) => (c[0] - x) ** 2 + (c[1] - y) ** 2)));
  const distance = Math.sqrt(x * x + y * y);
  return {
    rad: Math.atan2(y, x),
    halfRad: distance > radius ? Math.asin(radius / distance) : Math.PI,
  };
};

/** A lower bound: the distance of the axis from the shadow along the four main directions. */
const nearestToAxis = (corners: readonly Vec3[]): number => {
  let least = 0;
  for (const [x, y] of [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ] as const)
    least = Math.max(least, Math.min(...corners.map((c) => c[0] * x + c[1] * y)));
  return least;
};

/** A convex polygon between two heights; a single face when both heights are the same. */
export function prism(outline: readonly Vec2[], low: number, high: number): Solid {
  const at = (z: number): Vec3[] => outline.map(([x, y]) => [x, y, z]);
  return low === high
    ? new Solid(at(low), [outline.map((_, i) => i)], roundEdges(outline.length, 0))
    : between(at(low), at(high));
}

/**
 * The body between two loops with the same number of corners; its other edges join the corners of
 * the same number.
 */
export function between(low: readonly Vec3[], high: readonly Vec3[]): Solid {
  const n = low.length;
  const loop = low.map((_, i) => i);
  return new Solid(
    [...low, ...high],
    [loop, loop.map((i) => i + n), ...loop.map((i) => [i, (i + 1) % n, ((i + 1) % n) + n, i + n])],
    [...roundEdges(n, 0), ...roundEdges(n, n), ...loop.map((i): [number, number] => [i, i + n])],
  );
}

const roundEdges = (n: number, shift: number): [number, number][] =>
  Array.from({ length: n }, (_, i) => [i + shift, ((i + 1) % n) + shift]);

/** A box along the axes. */
export interface Box3 {
  readonly low: Vec3;
  readonly high: Vec3;
}

/** The box round some points. */
export const boxRound = (points: readonly Vec3[]): Box3 => {
  const [xs, ys, zs] = ([0, 1, 2] as const).map((axis) => points.map((p) => p[axis])) as [
    number[],
    number[],
    number[],
  ];
  return {
    low: [Math.min(...xs), Math.min(...ys), Math.min(...zs)],
    high: [Math.max(...xs), Math.max(...ys), Math.max(...zs)],
  };
};

/** A body moved from its own coordinates. */
export const placeSolid = (pose: Pose, { corners, faces, edges }: Solid): Solid =>
  new Solid(
    corners.map((c) => posePoint(pose, c)),
    faces,
    edges,
  );

/** The part of a body at `from <= z <= to`, as corners only, which is enough for its shadow. */
export function cornersBetween({ corners, edges }: Solid, from: number, to: number): Vec3[] {
  const kept = corners.filter((c) => c[2] >= from && c[2] <= to);
  for (const [i, j] of edges) {
    const [a, b] = [corners[i] as Vec3, corners[j] as Vec3];
    for (const z of [from, to]) {
      if (a[2] < z !== b[2] < z) kept.push(along3(a, sub3(b, a), (z - a[2]) / (b[2] - a[2])));
    }
  }
  return kept;
}

const distinct = (directions: readonly Vec3[]): Vec3[] => {
  const found: Vec3[] = [];
  for (const direction of directions) {
    const size = length3(direction);
    if (size < NO_DIRECTION) continue;
    const unit = scale3(direction, 1 / size);
    if (!found.some((other) => length3(cross3(unit, other)) < PARALLEL_SINE)) found.push(unit);
  }
  return found;
};

/**
 * How deep two convex bodies run into each other: the shortest way by which one could be moved out
 * of the other, mm. The depth is zero or less when they do not; it is then minus the widest
 * gap found along any of the axes, which is no more than their distance. By the separating axis
 * theorem convex bodies are apart exactly when they are apart along the normal of a face, or along
 * a direction square to an edge of each (Gottschalk, Lin and Manocha 1996).
 */
export const depthInto = (a: Solid, b: Solid): number => {
  let least = Infinity;
  for (const axis of axesOf(a, b)) {
    least = Math.min(least, overlapAlong(axis, a, b));
    if (least <= 0) return least;
  }
  return least;
};

function* axesOf(a: Solid, b: Solid): Generator<Vec3> {
  yield* a.directions.normals;
  yield* b.directions.normals;
  for (const p of a.directions.edges) {
    for (const q of b.directions.edges) {
      const axis = cross3(p, q);
      const size = length3(axis);
      if (size > PARALLEL_SINE) yield scale3(axis, 1 / size);
    }
  }
}

const overlapAlong = (axis: Vec3, a: Solid, b: Solid): number => {
  const [lowA, highA] = reach(axis, a.corners);
  const [lowB, highB] = reach(axis, b.corners);
  return Math.min(highA - lowB, highB - lowA);
};

const reach = (axis: Vec3, points: readonly Vec3[]): readonly [number, number] => {
  let [low, high] = [Infinity, -Infinity];
  for (const p of points) {
    const level = dot3(axis, p);
    if (level < low) low = level;
    if (level > high) high = level;
  }
  return [low, high];
};
