import { arcOf, pointAfterTurn } from './arc.ts';
import type { Loop, Vertex } from './loop.ts';
import type { Vec2 } from './vec2.ts';

/** The upright rectangle round something, mm. */
export interface Extents {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** The smallest rectangle round some points; undefined when there are none. */
export const pointExtents = (points: Iterable<Vec2>): Extents | undefined => {
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  for (const [x, y] of points) {
    if (x < minX) minX = x;
    if (y < minY) minY = y;
    if (x > maxX) maxX = x;
    if (y > maxY) maxY = y;
  }
  return minX <= maxX ? { minX, minY, maxX, maxY } : undefined;
};

/**
 * The rectangle round a loop, with the true reach of its arcs; undefined for a loop without
 * vertices.
 */
export const loopExtents = (loop: Loop): Extents | undefined => pointExtents(outermostPoints(loop));

/** The rectangle round several rectangles; undefined when there are none. */
export const jointExtents = (all: readonly Extents[]): Extents | undefined =>
  pointExtents(
    all.flatMap((e): Vec2[] => [
      [e.minX, e.minY],
      [e.maxX, e.maxY],
    ]),
  );

/**
 * The vertices, and the points where an arc passes the point of its circle furthest right, up, left
 * or down.
 */
const outermostPoints = (loop: Loop): Vec2[] => {
  const points: Vec2[] = [];
  for (let i = 0; i < loop.length; i++) {
    const { x, y, bulge } = loop[i] as Vertex;
    points.push([x, y]);
    if (bulge === 0) continue;
    const next = loop[i + 1] ?? (loop[0] as Vertex);
    for (const turn of quarterTurns([x, y], [next.x, next.y], bulge)) {
      points.push(pointAfterTurn([x, y], [next.x, next.y], bulge, turn));
    }
  }
  return points;
};

/** Turns from the start, in radians, after which an arc runs level or upright. */
const quarterTurns = (from: Vec2, to: Vec2, bulge: number): number[] => {
  const { startRad, sweepRad } = arcOf(from, to, bulge);
  const full = 2 * Math.PI;
  const turns: number[] = [];
  for (let quarter = 0; quarter < 4; quarter++) {
    const turn = Math.sign(bulge) * ((quarter * Math.PI) / 2 - startRad);
    const positive = turn - full * Math.floor(turn / full);
    if (positive < Math.abs(sweepRad)) turns.push(positive);
  }
  return turns;
};
