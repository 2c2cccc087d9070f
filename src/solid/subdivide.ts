import { cross, distance, dot, leftOf, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { insideRings } from './inside-rings.ts';
import { traceCells } from './trace-cells.ts';
import { SAME_POINT_MM } from '../geometry/tolerance.ts';

/** A straight cut from rim to rim, with the numbers of what lies on its left and on its right. */
export interface Cut {
  readonly from: Vec2;
  readonly to: Vec2;
  readonly left: number;
  readonly right: number;
}

/** A directed edge between two points, metal on its left. */
export interface HalfEdge {
  readonly from: number;
  readonly to: number;
  /** Number of what lies on its left, where a cut tells it. */
  readonly region?: number;
}

/** A stretch of a cut that lies in metal, from point to point, in the cut's direction. */
export interface CutEdge {
  readonly cut: number;
  readonly from: number;
  readonly to: number;
}

/**
 * A piece of the plane: the rim round it, counter-clockwise, and the rims of the holes in it,
 * clockwise.
 */
export interface Cell {
  readonly region: number;
  readonly rings: readonly (readonly number[])[];
}

/**
 * Rings cut by lines. Points of the rings keep their numbers, in the order in which they were
 * given.
 */
export interface Subdivision {
  readonly points: readonly Vec2[];
  readonly cells: readonly Cell[];
  readonly cutEdges: readonly CutEdge[];
  /** The rings, with the ends of cuts as points of their own. */
  readonly rings: readonly (readonly number[])[];
}

/**
 * Cuts an area along straight lines that do not cross each other within it. The area is given by
 * its outer ring (counter-clockwise) and the rings of its holes (clockwise). Every cell knows on
 * which side of which cuts it lies.
 */
export const subdivide = (
  given: readonly (readonly Vec2[])[],
  cuts: readonly Cut[],
): Subdivision => {
  const points: Vec2[] = given.flat();
  let first = 0;
  const rings = given.map((ring) => ring.map(() => first++));
  const edges = rings.flatMap((ring) =>
    ring.map((from, i): RingEdge => ({
      from,
      to: ring[(i + 1) % ring.length] as number,
      splits: [],
    })),
  );
  const stations = cuts.map((cut) => stationsOn(cut, points, edges));
  const whole = rings.map((ring) =>
    ring.flatMap((from) => [
      from,
      ...(edges[from] as RingEdge).splits.toSorted((a, b) => a.share - b.share).map((s) => s.point),
    ]),
  );
  const rim = new Set(
    whole.flatMap((ring) => ring.map((p, i) => edgeKey(p, ring[(i + 1) % ring.length] as number))),
  );
  const isMetal = (a: number, b: number): boolean => {
    const [p, q] = [points[a] as Vec2, points[b] as Vec2];
    return !rim.has(edgeKey(a, b)) && insideRings(given, [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2]);
  };
  const cutEdges = stations.flatMap((line, cut) =>
    line
      .slice(1)
      .flatMap((to, i): CutEdge[] =>
        isMetal(line[i] as number, to) ? [{ cut, from: line[i] as number, to }] : [],
      ),
  );
  const halfEdges: HalfEdge[] = [
    ...whole.flatMap((ring) =>
      ring.map((from, i): HalfEdge => ({ from, to: ring[(i + 1) % ring.length] as number })),
    ),
    ...cutEdges.flatMap(({ cut, from, to }): HalfEdge[] => {
      const { left, right } = cuts[cut] as Cut;
      return [
        { from, to, region: left },
        { from: to, to: from, region: right },
      ];
    }),
  ];
  return { points, cells: traceCells(points, halfEdges), cutEdges, rings: whole };
};

/** An edge of a ring, with the number of the point where it starts. */
interface RingEdge {
  readonly from: number;
  readonly to: number;
  readonly splits: { readonly share: number; readonly point: number }[];
}

const edgeKey = (a: number, b: number): number => Math.min(a, b) * 2 ** 26 + Math.max(a, b);

/**
 * The points at which a cut meets the rings, in the cut's direction; new ones are added to `points`
 * and to their edges.
 */
const stationsOn = ({ from, to }: Cut, points: Vec2[], edges: readonly RingEdge[]): number[] => {
  const dir = unit(sub(to, from));
  const normal = leftOf(dir);
  const long = distance(from, to);
  const found = new Map<number, number>();
  const add = (point: number): void => {
    const u = dot(sub(points[point] as Vec2, from), dir);
    if (u > -SAME_POINT_MM && u < long + SAME_POINT_MM) found.set(point, u);
  };
  const heights = edges.map((e) => dot(sub(points[e.from] as Vec2, from), normal));
  edges.forEach((edge, i) => {
    const [a, b] = [heights[i] as number, heights[edge.to] as number];
    if (Math.abs(a) <= SAME_POINT_MM) return add(edge.from);
    if (Math.abs(b) <= SAME_POINT_MM || a > 0 === b > 0) return undefined;
    const share = a / (a - b);
    const [p, q] = [points[edge.from] as Vec2, points[edge.to] as Vec2];
    const u = dot(sub(p, from), dir) + share * dot(sub(q, p), dir);
    if (u <= -SAME_POINT_MM || u >= long + SAME_POINT_MM) return undefined;
    return add(splitAt(edge, share, [from[0] + u * dir[0], from[1] + u * dir[1]], points));
  });
  return [...found].toSorted((a, b) => a[1] - b[1]).map(([point]) => point);
};

/** A new point on an edge, or one that another cut has put there already. */
const splitAt = (edge: RingEdge, share: number, at: Vec2, points: Vec2[]): number => {
  const known = edge.splits.find((s) => distance(points[s.point] as Vec2, at) <= SAME_POINT_MM);
  if (known !== undefined) return known.point;
  points.push(at);
  edge.splits.push({ share, point: points.length - 1 });
  return points.length - 1;
};

/** Twice the area of a ring of points, positive when it runs counter-clockwise. */
export const ringArea = (points: readonly Vec2[], ring: readonly number[]): number => {
  const origin = points[ring[0] as number] as Vec2;
  return ring.reduce(
    (sum, p, i) =>
      sum +
      cross(
        sub(points[p] as Vec2, origin),
        sub(points[ring[(i + 1) % ring.length] as number] as Vec2, origin),
      ),
    0,
  );
};
