import { NOISE_MM } from './tolerance.ts';
import { along, cross, dot, sub, unit, type Vec2 } from './vec2.ts';

/**
 * The convex hull of some points, counter-clockwise; one or two points where all of them lie on one
 * line.
 */
export function hullOf(points: readonly Vec2[]): Vec2[] {
  const sorted = points.toSorted((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (inOrder: readonly Vec2[]): Vec2[] => {
    const chain: Vec2[] = [];
    for (const p of inOrder) {
      while (
        chain.length > 1 &&
        cross(sub(chain.at(-1) as Vec2, chain.at(-2) as Vec2), sub(p, chain.at(-2) as Vec2)) <=
          NOISE_MM
      )
        chain.pop();
      chain.push(p);
    }
    return chain;
  };
  const hull = [...half(sorted).slice(0, -1), ...half(sorted.toReversed()).slice(0, -1)];
  return hull.length > 0 ? hull : sorted.slice(0, 1);
}

/** Area inside a convex polygon, positive when it runs counter-clockwise. */
export const polygonArea = (p: readonly Vec2[]): number =>
  p.reduce(
    (sum, a, i) =>
      sum + cross(sub(a, p[0] as Vec2), sub(p[(i + 1) % p.length] as Vec2, p[0] as Vec2)) / 2,
    0,
  );

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

/**
 * A convex polygon with every edge moved inwards by what `insetOf` gives for it, mm; without points
 * when nothing is left.
 */
export function inset(polygon: readonly Vec2[], insetOf: (from: Vec2, to: Vec2) => number): Vec2[] {
  const ccw = polygonArea(polygon) < 0 ? polygon.toReversed() : [...polygon];
  return ccw.reduce<Vec2[]>((left, from, i) => {
    const to = ccw[(i + 1) % ccw.length] as Vec2;
    const dir = unit(sub(to, from));
    return keepLeft(left, along(from, [-dir[1], dir[0]], insetOf(from, to)), dir);
  }, grown(ccw));
}

/**
 * An edge that moves outwards needs something to cut from, so the polygon is extended by a frame
 * far round it.
 */
const grown = (polygon: readonly Vec2[]): Vec2[] => {
  const xs = polygon.map((p) => p[0]);
  const ys = polygon.map((p) => p[1]);
  const [l, b, r, t] = [
    Math.min(...xs) - 1,
    Math.min(...ys) - 1,
    Math.max(...xs) + 1,
    Math.max(...ys) + 1,
  ];
  return [
    [l, b],
    [r, b],
    [r, t],
    [l, t],
  ];
};

/** Whether two convex polygons share more than a boundary. Either may be a single line. */
export const overlap = (a: readonly Vec2[], b: readonly Vec2[]): boolean =>
  !separates(a, a, b) && !separates(b, a, b);

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
