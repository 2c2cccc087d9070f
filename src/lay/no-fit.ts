import { FillRule, type PathD, unionD } from 'clipper2-ts';
import { turnedDeg } from '../geometry/degrees.ts';
import { cross, sub, type Vec2 } from '../geometry/vec2.ts';

/**
 * Where one shape may not lie because of another that lies at 0,0: the points to which its own 0,0
 * must not come. Every edge of every ring takes `EDGE` figures: where it starts, how far it runs,
 * 1 over the square of its length, and the y and x at which it ends.
 */
export interface NoFit {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
  readonly edges: Float64Array;
}

/** Figures of an edge in `NoFit.edges`. */
export const EDGE = 7;

/** Decimals that the union rounds its corners to; whole numbers stay as they are. */
const UNION_DECIMALS = 6;

/** Convex polygons side by side, counter-clockwise. */
export type Convexes = readonly (readonly Vec2[])[];

/**
 * The no-fit polygon of a shape that moves beside one that stays: their Minkowski difference. Both
 * are given as convex pieces; the difference of two such is the polygon of their edges in the order
 * of their directions, and the whole is the union of these. A ring within it is a place in a hole
 * or a bay of the shape that stays.
 */
export const noFitOf = (stays: Convexes, moves: Convexes): NoFit => {
  const turned = moves.map((piece) => piece.map(([x, y]): Vec2 => [-x, -y]));
  const sums = stays.flatMap((a) => turned.map((b) => convexSum(a, b)));
  const [only] = sums;
  if (sums.length === 1 && only !== undefined) return ringsToNoFit([only]);
  const paths = sums.map((sum): PathD => sum.map(([x, y]) => ({ x, y })));
  const rings = unionD(paths, [], FillRule.NonZero, UNION_DECIMALS).map((ring) =>
    straightened(ring.map(({ x, y }): Vec2 => [x, y])),
  );
  return ringsToNoFit(rings.filter((ring) => ring.length > 2));
};

/** The Minkowski sum of two convex polygons. */
const convexSum = (a: readonly Vec2[], b: readonly Vec2[]): Vec2[] => {
  const [p, q] = [fromLowest(a), fromLowest(b)];
  const sum: Vec2[] = [];
  let [i, j] = [0, 0];
  while (i < p.length || j < q.length) {
    const [a0, b0] = [p[i % p.length] as Vec2, q[j % q.length] as Vec2];
    sum.push([a0[0] + b0[0], a0[1] + b0[1]]);
    const turn = cross(
      sub(p[(i + 1) % p.length] as Vec2, a0),
      sub(q[(j + 1) % q.length] as Vec2, b0),
    );
    const isFirst = i < p.length && (j >= q.length || turn >= 0);
    const isSecond = j < q.length && (i >= p.length || turn <= 0);
    if (isFirst) i++;
    if (isSecond) j++;
  }
  return straightened(sum);
};

const fromLowest = (p: readonly Vec2[]): Vec2[] => {
  let low = 0;
  p.forEach(([x, y], i) => {
    const [lowX, lowY] = p[low] as Vec2;
    if (y < lowY || (y === lowY && x < lowX)) low = i;
  });
  return [...p.slice(low), ...p.slice(0, low)];
};

/** Without the corners that lie on the line between their neighbours. */
const straightened = (ring: readonly Vec2[]): Vec2[] =>
  ring.filter((p, i) => {
    const [before, after] = [ring.at(i - 1) as Vec2, ring[(i + 1) % ring.length] as Vec2];
    const [d, e] = [sub(p, before), sub(after, p)];
    return (
      Math.abs(cross(d, e)) > STRAIGHT * (Math.hypot(...d) * Math.hypot(...e)) ||
      d[0] * e[0] + d[1] * e[1] < 0
    );
  });

/** Sine of the angle below which two edges are one. */
const STRAIGHT = 1e-9;

const ringsToNoFit = (rings: readonly (readonly Vec2[])[]): NoFit => {
  const edges = Float64Array.from(
    rings.flatMap((ring) =>
      ring.flatMap(([x, y], i) => {
        const [toX, toY] = ring[(i + 1) % ring.length] as Vec2;
        const [dx, dy] = [toX - x, toY - y];
        return [x, y, dx, dy, 1 / (dx * dx + dy * dy), toY, toX];
      }),
    ),
  );
  return { ...boxOf(edges), edges };
};

/** The same with both shapes turned together. */
export const turnedNoFit = (noFit: NoFit, turnDeg: number): NoFit => {
  if (turnDeg === 0) return noFit;
  const edges = noFit.edges.slice();
  for (let k = 0; k < edges.length; k += EDGE) {
    edges.set(turnedDeg([edges[k] as number, edges[k + 1] as number], turnDeg), k);
    edges.set(turnedDeg([edges[k + 2] as number, edges[k + 3] as number], turnDeg), k + 2);
    const [toX, toY] = turnedDeg([edges[k + 6] as number, edges[k + 5] as number], turnDeg);
    edges.set([toY, toX], k + 5);
  }
  return { ...boxOf(edges), edges };
};

/** The box round the corners from which edges start. */
const boxOf = (edges: Float64Array): Omit<NoFit, 'edges'> => {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let k = 0; k < edges.length; k += EDGE) {
    const [x, y] = [edges[k] as number, edges[k + 1] as number];
    minX = Math.min(minX, x);
    minY = Math.min(minY, y);
    maxX = Math.max(maxX, x);
    maxY = Math.max(maxY, y);
  }
  return { minX, minY, maxX, maxY };
};

/** Whether a line from the point to the left crosses the rings an odd number of times. */
export const isInRings = (edges: Float64Array, x: number, y: number): boolean => {
  let isInside = false;
  for (let k = 0; k < edges.length; k += EDGE) {
    const fromY = edges[k + 1] as number;
    // Levels are compared as they are: the end of an edge is the start of the next to the last bit.
    if (y < fromY === y < (edges[k + 5] as number)) continue;
    const dy = edges[k + 3] as number;
    const px = x - (edges[k] as number);
    if ((edges[k + 2] as number) * (y - fromY) > dy * px === dy > 0) isInside = !isInside;
  }
  return isInside;
};
