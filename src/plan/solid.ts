import type { Pose } from '../geometry/pose.ts';
import { posePoint } from '../geometry/pose.ts';
import { along, cross, dot, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { along3, sub3, type Vec3 } from '../geometry/vec3.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';

/**
 * A convex body, mm: its corners, its faces as loops of corners, its edges as pairs. A flat sheet has one face. What is
 * asked of one body again and again is worked out once.
 */
export class Solid {
  #shadow: readonly Vec2[] | undefined;
  #ring: Ring | undefined;
  constructor(
    readonly corners: readonly Vec3[],
    readonly faces: readonly (readonly number[])[],
    readonly edges: readonly (readonly [number, number])[],
  ) {}

  /** The convex hull of the shadow on the xy plane. */
  get shadow(): readonly Vec2[] {
    return (this.#shadow ??= shadow(this.corners));
  }

  /** What the body keeps when it turns about the z axis. */
  get ring(): Ring {
    return (this.#ring ??= ringOf(this));
  }
}

/** Heights along the z axis, and distances from it, mm. */
export interface Ring {
  readonly low: number;
  readonly high: number;
  readonly inner: number;
  readonly outer: number;
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
    return Math.abs(a[2] - b[2]) < NOISE_MM || (Math.abs(a[0] - b[0]) < NOISE_MM && Math.abs(a[1] - b[1]) < NOISE_MM);
  };
  return { low, high, inner: nearestToAxis(corners), outer, isPrism: high - low > NOISE_MM && edges.every(isAlongOrAcross) };
};

/** A lower bound: the distance of the axis from the shadow along the four main directions. */
const nearestToAxis = (corners: readonly Vec3[]): number => {
  let least = 0;
  for (const [x, y] of [[1, 0], [-1, 0], [0, 1], [0, -1]] as const) least = Math.max(least, Math.min(...corners.map((c) => c[0] * x + c[1] * y)));
  return least;
};

/** A convex polygon between two heights; a flat sheet when both are the same. */
export function plate(outline: readonly Vec2[], low: number, high: number): Solid {
  const n = outline.length;
  const at = (z: number): Vec3[] => outline.map(([x, y]) => [x, y, z]);
  const loop = outline.map((_, i) => i);
  const round = (shift: number): [number, number][] => loop.map((i) => [i + shift, ((i + 1) % n) + shift]);
  if (low === high) return new Solid(at(low), [loop], round(0));
  return new Solid(
    [...at(low), ...at(high)],
    [loop, loop.map((i) => i + n), ...loop.map((i) => [i, (i + 1) % n, ((i + 1) % n) + n, i + n])],
    [...round(0), ...round(n), ...loop.map((i): [number, number] => [i, i + n])],
  );
}

export const placeSolid = (pose: Pose, { corners, faces, edges }: Solid): Solid => new Solid(corners.map((c) => posePoint(pose, c)), faces, edges);

/** What of a body lies at `from <= z <= to`, as corners only: enough for its shadow. */
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

/** The convex hull of the shadow on the xy plane, counter-clockwise: one or two points where the body stands on edge. */
export function shadow(corners: readonly Vec3[]): Vec2[] {
  const points = corners.map((c): Vec2 => [c[0], c[1]]).sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (sorted: readonly Vec2[]): Vec2[] => {
    const chain: Vec2[] = [];
    for (const p of sorted) {
      while (chain.length > 1 && cross(sub(chain.at(-1) as Vec2, chain.at(-2) as Vec2), sub(p, chain.at(-2) as Vec2)) <= NOISE_MM) chain.pop();
      chain.push(p);
    }
    return chain;
  };
  const hull = [...half(points).slice(0, -1), ...half(points.toReversed()).slice(0, -1)];
  return hull.length > 0 ? hull : points.slice(0, 1);
}

/** Area inside a convex polygon, positive when it runs counter-clockwise. */
export const polygonArea = (p: readonly Vec2[]): number =>
  p.reduce((sum, a, i) => sum + cross(sub(a, p[0] as Vec2), sub(p[(i + 1) % p.length] as Vec2, p[0] as Vec2)) / 2, 0);

/** The part of a convex polygon that lies on the left of the line through `at` along `dir`. */
export function keepLeft(polygon: readonly Vec2[], at: Vec2, dir: Vec2): Vec2[] {
  const side = polygon.map((p) => cross(dir, sub(p, at)));
  return polygon.flatMap((p, i) => {
    const j = (i + 1) % polygon.length;
    const [a, b] = [side[i] as number, side[j] as number];
    const kept: Vec2[] = a >= 0 ? [p] : [];
    if (a >= 0 !== b >= 0) kept.push(along(p, sub(polygon[j] as Vec2, p), a / (a - b)));
    return kept;
  });
}

/** A convex polygon with every edge moved inwards by what `insetOf` says of it, mm; without points when none is left. */
export function inset(polygon: readonly Vec2[], insetOf: (from: Vec2, to: Vec2) => number): Vec2[] {
  const ccw = polygonArea(polygon) < 0 ? polygon.toReversed() : [...polygon];
  return ccw.reduce<Vec2[]>(
    (left, from, i) => {
      const to = ccw[(i + 1) % ccw.length] as Vec2;
      const dir = unit(sub(to, from));
      return keepLeft(left, along(from, [-dir[1], dir[0]], insetOf(from, to)), dir);
    },
    grown(ccw),
  );
}

/** Moving an edge outwards needs metal to keep: the polygon in a frame far round it. */
const grown = (polygon: readonly Vec2[]): Vec2[] => {
  const xs = polygon.map((p) => p[0]);
  const ys = polygon.map((p) => p[1]);
  const [l, b, r, t] = [Math.min(...xs) - 1, Math.min(...ys) - 1, Math.max(...xs) + 1, Math.max(...ys) + 1];
  return [[l, b], [r, b], [r, t], [l, t]];
};

/** Whether two convex polygons share more than a boundary. Either may be a single line. */
export const overlap = (a: readonly Vec2[], b: readonly Vec2[]): boolean => !separates(a, a, b) && !separates(b, a, b);

const separates = (axes: readonly Vec2[], a: readonly Vec2[], b: readonly Vec2[]): boolean =>
  axes.some((from, i) => {
    const dir = unit(sub(axes[(i + 1) % axes.length] as Vec2, from));
    const normal: Vec2 = [-dir[1], dir[0]];
    return apart(a, b, normal) || (axes.length === 2 && apart(a, b, dir));
  });

const apart = (a: readonly Vec2[], b: readonly Vec2[], axis: Vec2): boolean => {
  if (axis[0] === 0 && axis[1] === 0) return false;
  const on = (p: readonly Vec2[]): [number, number] => {
    let [low, high] = [Infinity, -Infinity];
    for (const q of p) {
      const d = dot(q, axis);
      if (d < low) low = d;
      if (d > high) high = d;
    }
    return [low, high];
  };
  const [aLow, aHigh] = on(a);
  const [bLow, bHigh] = on(b);
  return aHigh <= bLow + NOISE_MM || bHigh <= aLow + NOISE_MM;
};
