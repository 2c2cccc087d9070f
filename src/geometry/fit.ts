import { withChords } from './chords.ts';
import { hullOf, polygonArea } from './convex-polygon.ts';
import { cosDeg, sinDeg } from './degrees.ts';
import type { Loop } from './loop.ts';
import { NOISE_MM } from './tolerance.ts';
import { dot, length, sub, type Vec2 } from './vec2.ts';

/**
 * Chords leave their arcs by no more than this, mm. A loop that is found not to fit exceeds the
 * rectangle by far more.
 */
const HULL_CHORD_MM = 0.01;

/**
 * The least turn in whole degrees, 0 to 179, after which a loop fits into a rectangle `length` x
 * `width`. Where no whole degree does, it is a turn between two of them; `undefined` when the loop
 * fits in no turn at all. Square positions are preferred: 0, then 90.
 */
export function turnToFit(loop: Loop, lengthMm: number, widthMm: number): number | undefined {
  const hull = hullOf(withChords(loop, HULL_CHORD_MM).map(({ x, y }): Vec2 => [x, y]));
  const fits = (deg: number): boolean =>
    isWithin(hull, [cosDeg(deg), -sinDeg(deg)], lengthMm, widthMm);
  const square = [0, 90].find(fits);
  if (square !== undefined || isLarger(hull, lengthMm, widthMm)) return square;
  return (
    Array.from({ length: 180 }, (_, deg) => deg).find(fits) ?? turnBetween(hull, lengthMm, widthMm)
  );
}

/**
 * Whether a hull is larger than the rectangle, or longer than its diagonal; it then fits in no
 * turn, and no search is needed.
 */
const isLarger = (hull: readonly Vec2[], lengthMm: number, widthMm: number): boolean => {
  const [long, wide] = [lengthMm + 2 * NOISE_MM, widthMm + 2 * NOISE_MM];
  return polygonArea(hull) > long * wide || farthestApart(hull) > Math.hypot(long, wide);
};

/** Whether the corners of a convex polygon fit into a rectangle in some turn. */
export const fitsTurned = (hull: readonly Vec2[], lengthMm: number, widthMm: number): boolean =>
  turnBetween(hull, lengthMm, widthMm) !== undefined;

/** How far points reach along a direction, from the first to the last. */
export const reachAlong = (points: readonly Vec2[], u: Vec2): number => {
  let [low, high] = [Infinity, -Infinity];
  for (const p of points) {
    const at = dot(p, u);
    if (at < low) low = at;
    if (at > high) high = at;
  }
  return high - low;
};

/** How far apart the two points are that lie farthest from each other. */
export const farthestApart = (points: readonly Vec2[]): number => {
  let most = 0;
  points.forEach((p, i) => {
    for (let j = i + 1; j < points.length; j++)
      most = Math.max(most, length(sub(points[j] as Vec2, p)));
  });
  return most;
};

const isWithin = (hull: readonly Vec2[], u: Vec2, lengthMm: number, widthMm: number): boolean =>
  reachAlong(hull, u) <= lengthMm + NOISE_MM &&
  reachAlong(hull, [-u[1], u[0]]) <= widthMm + NOISE_MM;

const HALF_TURN = Math.PI;

/**
 * A turn in degrees, 0 to 180, after which a convex polygon fits. Between two neighbouring
 * directions of its edges the same two corners are the outermost ones, d apart, and the polygon
 * reaches d cos(w - lean). If it fits at all, it therefore fits at one of these directions, or
 * where it is exactly as long, or as wide, as the rectangle (rotating calipers, M. I. Shamos 1978,
 * cited from memory).
 */
const turnBetween = (
  hull: readonly Vec2[],
  lengthMm: number,
  widthMm: number,
): number | undefined => {
  const normals = hull.map((p, i) => {
    const edge = sub(hull[(i + 1) % hull.length] as Vec2, p);
    return Math.atan2(edge[1], edge[0]) + HALF_TURN / 2;
  });
  const changes = [0, ...normals.flatMap((rad) => [rad, rad - HALF_TURN / 2])]
    .map(inHalfTurn)
    .toSorted((a, b) => a - b);
  const tries = changes.flatMap((from, i) => {
    const to = changes[i + 1] ?? HALF_TURN;
    return [
      from,
      ...equalities(hull, (from + to) / 2, 0, lengthMm),
      ...equalities(hull, (from + to) / 2, HALF_TURN / 2, widthMm),
    ];
  });
  const found = tries.find((rad) =>
    isWithin(hull, [Math.cos(rad), Math.sin(rad)], lengthMm, widthMm),
  );
  return found === undefined ? undefined : (inHalfTurn(-found) * 180) / HALF_TURN;
};

const inHalfTurn = (rad: number): number => rad - HALF_TURN * Math.floor(rad / HALF_TURN);

/**
 * The directions w in which the two corners that are outermost about `near + more` reach exactly
 * `asked` along w + more.
 */
const equalities = (hull: readonly Vec2[], near: number, more: number, asked: number): number[] => {
  const u: Vec2 = [Math.cos(near + more), Math.sin(near + more)];
  const by = (best: Vec2, p: Vec2): Vec2 => (dot(p, u) > dot(best, u) ? p : best);
  const far = hull.reduce(by);
  const d = sub(
    far,
    hull.reduce((best, p) => (dot(p, u) < dot(best, u) ? p : best)),
  );
  const long = length(d);
  if (long < asked || long === 0) return [];
  const lean = Math.atan2(d[1], d[0]) - more;
  const turn = Math.acos(asked / long);
  return [lean - turn, lean + turn].map(inHalfTurn);
};
