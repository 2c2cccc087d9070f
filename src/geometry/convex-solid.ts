import { type Pose, posePoint, poseVector } from './pose.ts';
import { sub, type Vec2 } from './vec2.ts';
import { cross3, dot3, length3, scale3, type Vec3 } from './vec3.ts';

/** A convex body by its corners, with the directions of its faces and edges, and the box about it. */
export interface ConvexSolid {
  readonly points: readonly Vec3[];
  /** Unit normals of its faces; one for two that are parallel. */
  readonly normals: readonly Vec3[];
  /** Unit directions of its edges; one for several that are parallel. */
  readonly edges: readonly Vec3[];
  readonly low: Vec3;
  readonly high: Vec3;
}

/** The convex body with these corners. */
export const convexSolid = (points: readonly Vec3[], normals: readonly Vec3[], edges: readonly Vec3[]): ConvexSolid => {
  const along = (axis: 0 | 1 | 2): number[] => points.map((p) => p[axis]);
  return {
    points,
    normals: distinct(normals),
    edges: distinct(edges),
    low: [Math.min(...along(0)), Math.min(...along(1)), Math.min(...along(2))],
    high: [Math.max(...along(0)), Math.max(...along(1)), Math.max(...along(2))],
  };
};

/** A convex polygon, counter-clockwise, between two heights over its plane, placed in space. */
export const prism = (polygon: readonly Vec2[], [bottom, top]: readonly [number, number], pose: Pose): ConvexSolid => {
  const sides = polygon.map((p, i) => sub(polygon[(i + 1) % polygon.length] as Vec2, p));
  return convexSolid(
    polygon.flatMap(([x, y]) => [posePoint(pose, [x, y, bottom]), posePoint(pose, [x, y, top])]),
    [pose.z, ...sides.map(([x, y]) => poseVector(pose, [y, -x, 0]))],
    [pose.z, ...sides.map(([x, y]) => poseVector(pose, [x, y, 0]))],
  );
};

/** Directions nearer to each other than this, as the sine of the angle between them, count as one. */
const PARALLEL = 1e-9;

const distinct = (directions: readonly Vec3[]): Vec3[] => {
  const found: Vec3[] = [];
  for (const direction of directions) {
    const size = length3(direction);
    if (size < 1e-12) continue;
    const unit = scale3(direction, 1 / size);
    if (!found.some((other) => length3(cross3(unit, other)) < PARALLEL)) found.push(unit);
  }
  return found;
};

/**
 * How deep two convex bodies run into each other: the shortest way by which one could be moved out of the other, mm.
 * Zero or less when they do not; then minus the widest gap found along any of the axes, which is no more than their
 * distance. By the separating axis theorem: convex bodies are apart just when they are along a normal of a face or
 * along what is square to an edge of each (Gottschalk, Lin and Manocha 1996).
 */
export const depthInto = (a: ConvexSolid, b: ConvexSolid): number => {
  let least = Infinity;
  for (const axis of axesOf(a, b)) {
    least = Math.min(least, overlapAlong(axis, a, b));
    if (least <= 0) return least;
  }
  return least;
};

function* axesOf(a: ConvexSolid, b: ConvexSolid): Generator<Vec3> {
  yield* a.normals;
  yield* b.normals;
  for (const p of a.edges) {
    for (const q of b.edges) {
      const axis = cross3(p, q);
      const size = length3(axis);
      if (size > PARALLEL) yield scale3(axis, 1 / size);
    }
  }
}

const overlapAlong = (axis: Vec3, a: ConvexSolid, b: ConvexSolid): number => {
  const [lowA, highA] = reach(axis, a.points);
  const [lowB, highB] = reach(axis, b.points);
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

/** Whether the boxes about two bodies share more than a depth; a quick no for most pairs. */
export const boxesShare = (a: ConvexSolid, b: ConvexSolid, depthMm: number): boolean =>
  ([0, 1, 2] as const).every((i) => Math.min(a.high[i] - b.low[i], b.high[i] - a.low[i]) > depthMm);

/** The middle of what the boxes about two bodies share. */
export const middleOfShared = (a: ConvexSolid, b: ConvexSolid): Vec3 => {
  const middle = (i: 0 | 1 | 2): number => (Math.max(a.low[i], b.low[i]) + Math.min(a.high[i], b.high[i])) / 2;
  return [middle(0), middle(1), middle(2)];
};

