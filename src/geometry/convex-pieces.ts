import earcut from 'earcut';
import { pointAfterTurn, sweepOf } from './arc.ts';
import type { Loop } from './loop.ts';
import { pieceOf } from './piece.ts';
import { cross, distance, sub, type Vec2 } from './vec2.ts';

/**
 * A loop as convex polygons side by side, counter-clockwise, without the holes that lie within it.
 * Arcs become chords that stay within `errorMm` of them. Earcut cuts the loop into triangles, which
 * are joined again wherever the result is convex (Hertel and Mehlhorn 1983).
 */
export const convexPieces = (
  loop: Loop,
  errorMm: number,
  holes: readonly Loop[] = [],
): Vec2[][] => {
  const points = chordsOf(loop, errorMm);
  const starts = holes.map((hole) => {
    const start = points.length;
    points.push(...chordsOf(hole, errorMm));
    return start;
  });
  const corners = earcut(points.flat(), starts);
  const triangles = Array.from({ length: corners.length / 3 }, (_, i) =>
    corners.slice(3 * i, 3 * i + 3),
  );
  return joined(
    points,
    triangles.map((t) => turnedLeft(points, t)),
  ).map((piece) => piece.map((i) => points[i] as Vec2));
};

const chordsOf = (loop: Loop, errorMm: number): Vec2[] =>
  loop.flatMap((_, i): Vec2[] => {
    const { from, to, bulge } = pieceOf(loop, i);
    if (bulge === 0) return [from];
    const sweep = Math.abs(sweepOf(bulge));
    const radius = distance(from, to) / (2 * Math.sin(Math.min(sweep / 2, Math.PI / 2)));
    // A chord over the angle w stays R (1 - cos(w / 2)) inside its arc.
    const step = 2 * Math.acos(Math.max(0, 1 - errorMm / Math.max(radius, errorMm)));
    const count = Math.max(1, Math.ceil(sweep / step));
    return Array.from({ length: count }, (_unused, k) =>
      k === 0 ? from : pointAfterTurn(from, to, bulge, (k * sweep) / count),
    );
  });

const turnedLeft = (points: readonly Vec2[], [a = 0, b = 0, c = 0]: readonly number[]): number[] =>
  turn(points, a, b, c) > 0 ? [a, b, c] : [a, c, b];

const turn = (points: readonly Vec2[], a: number, b: number, c: number): number => {
  const [p, q, r] = [points[a] as Vec2, points[b] as Vec2, points[c] as Vec2];
  return cross(sub(q, p), sub(r, q));
};

/**
 * Removes the edges that two pieces share, one after another, as long as the joined piece is convex
 * at both ends of the edge.
 */
const joined = (points: readonly Vec2[], pieces: number[][]): number[][] => {
  const left = [...pieces];
  for (let i = 0; i < left.length; i++) {
    for (let j = i + 1; j < left.length; j++) {
      const one = joinTwo(points, left[i] as number[], left[j] as number[]);
      if (one === undefined) continue;
      left[i] = one;
      left.splice(j, 1);
      j = i;
    }
  }
  return left;
};

const joinTwo = (
  points: readonly Vec2[],
  a: readonly number[],
  b: readonly number[],
): number[] | undefined => {
  for (let i = 0; i < a.length; i++) {
    const [from, to] = [a[i] as number, a[(i + 1) % a.length] as number];
    const j = b.indexOf(to);
    if (j === -1 || b[(j + 1) % b.length] !== from) continue;
    const one = [...around(a, i + 1), ...around(b, j + 1).slice(1, -1)];
    return one.every(
      (at, k) =>
        turn(points, one.at(k - 1) as number, at, one[(k + 1) % one.length] as number) >= 0,
    )
      ? one
      : undefined;
  }
  return undefined;
};

/** A piece's corners, beginning at the given one. */
const around = (piece: readonly number[], start: number): number[] => [
  ...piece.slice(start),
  ...piece.slice(0, start),
];
