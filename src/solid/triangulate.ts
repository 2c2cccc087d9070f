import earcut from 'earcut';
import type { Vec2 } from '../geometry/vec2.ts';

export type Corners = readonly [number, number, number];

/**
 * Turns of the plane by cosine and sine, the first of them none. A hole that lies level with the
 * straight side of another is joined to it along that side, which loses a point that both need;
 * turned a little, nothing lies level with anything (3-4-5, 5-12-13, 8-15-17).
 */
const TURNS = [
  [1, 0],
  [0.8, 0.6],
  [12 / 13, 5 / 13],
  [15 / 17, 8 / 17],
] as const;

/**
 * Cuts a cell, its outer ring counter-clockwise and its holes clockwise, into counter-clockwise
 * triangles of its own points. All points are used, including those in the middle of a straight
 * side, which earcut leaves out. The triangles run as the outer ring does. A triangle that noise
 * turns over is left that way, because otherwise edges would be walked twice.
 */
export const triangulate = (
  points: readonly Vec2[],
  rings: readonly (readonly number[])[],
): Corners[] => {
  for (const turn of TURNS) {
    const triangles = cutTurned(points, rings, turn);
    if (triangles !== undefined) return triangles;
  }
  throw new Error('a cell could not be cut into triangles');
};

/** The same in the plane turned so; nothing where a side of a ring is no side of a triangle. */
const cutTurned = (
  points: readonly Vec2[],
  rings: readonly (readonly number[])[],
  [c, s]: readonly [number, number],
): Corners[] | undefined => {
  const ids = rings.flat();
  const starts: number[] = [];
  rings.slice(0, -1).reduce((sum, ring) => {
    starts.push(sum + ring.length);
    return sum + ring.length;
  }, 0);
  const found = earcut(
    ids.flatMap((p) => {
      const [x, y] = points[p] as Vec2;
      return [c * x - s * y, s * x + c * y];
    }),
    starts,
  );
  const triangles: Corners[] = [];
  for (let i = 0; i < found.length; i += 3) {
    const [a, b, d] = [0, 1, 2].map((k) => ids[found[i + k] as number] as number) as [
      number,
      number,
      number,
    ];
    triangles.push([a, b, d]);
  }
  return triangles.length === ids.length + 2 * rings.length - 4
    ? triangles
    : withAllPoints(triangles, rings);
};

/** One number for a directed edge between two points. */
export const edgeName = (from: number, to: number): number => from * 2 ** 26 + to;

/**
 * Divides the triangle sides that stand for several edges of a ring in a row at the points between;
 * nothing where a point of a ring lies on no side of a triangle.
 */
const withAllPoints = (
  triangles: readonly Corners[],
  rings: readonly (readonly number[])[],
): Corners[] | undefined => {
  const sides = new Set(
    triangles.flatMap(([a, b, c]) => [edgeName(a, b), edgeName(b, c), edgeName(c, a)]),
  );
  const chains = new Map<number, number[]>();
  for (const ring of rings) {
    const start = ring.findIndex((p, i) =>
      sides.has(edgeName(ring[(i + ring.length - 1) % ring.length] as number, p)),
    );
    if (start < 0) return undefined;
    const turned = [...ring.slice(start), ...ring.slice(0, start), ring[start] as number];
    for (let i = 0, end = 0; i < turned.length - 1; i = end) {
      for (
        end = i + 1;
        end < turned.length && !sides.has(edgeName(turned[i] as number, turned[end] as number));
      )
        end += 1;
      if (end === turned.length) return undefined;
      if (end > i + 1)
        chains.set(edgeName(turned[i] as number, turned[end] as number), turned.slice(i, end + 1));
    }
  }
  return triangles.flatMap((corners) => fanned(corners, chains));
};

/**
 * Divides a triangle at the points on its sides; the points of each side are joined with the corner
 * opposite, one side after another.
 */
const fanned = ([a, b, c]: Corners, chains: ReadonlyMap<number, readonly number[]>): Corners[] => {
  for (const [p, q, r] of [
    [a, b, c],
    [b, c, a],
    [c, a, b],
  ] as const) {
    const chain = chains.get(edgeName(p, q));
    if (chain === undefined) continue;
    return chain.slice(1).flatMap((to, i) => fanned([chain[i] as number, to, r], chains));
  }
  return [[a, b, c]];
};
