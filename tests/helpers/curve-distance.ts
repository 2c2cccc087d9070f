import { pointAfterTurn, sweepOf } from '../../src/geometry/arc.ts';
import type { Loop } from '../../src/geometry/loop.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import type { ReadVertex } from './ezdxf.ts';

const SAMPLES = 5;

/** Points along every piece of a loop, ends included. */
export const pointsAlong = (loop: Loop): Vec2[] =>
  loop.flatMap((v, i) => {
    const next = loop[(i + 1) % loop.length] as (typeof loop)[number];
    const from: Vec2 = [v.x, v.y];
    const to: Vec2 = [next.x, next.y];
    return Array.from({ length: SAMPLES }, (_, k): Vec2 => {
      const share = k / (SAMPLES - 1);
      if (v.bulge !== 0)
        return pointAfterTurn(from, to, v.bulge, share * Math.abs(sweepOf(v.bulge)));
      return [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
    });
  });

/** Distance of a point from a closed polyline whose arcs were worked out by an outside reader. */
export const distanceToCurve = (p: Vec2, vertices: readonly ReadVertex[]): number =>
  Math.min(
    ...vertices.map((v, i) => {
      const next = vertices[(i + 1) % vertices.length] as ReadVertex;
      return v.arc === null ? distanceToSegment(p, v, next) : distanceToArc(p, v, next);
    }),
  );

type Point = { readonly x: number; readonly y: number };

const distanceToSegment = (p: Vec2, a: Point, b: Point): number => {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const share = Math.min(
    1,
    Math.max(0, ((p[0] - a.x) * dx + (p[1] - a.y) * dy) / (dx * dx + dy * dy)),
  );
  return Math.hypot(p[0] - a.x - share * dx, p[1] - a.y - share * dy);
};

const distanceToArc = (p: Vec2, from: ReadVertex, to: Point): number => {
  const toEnds = Math.min(
    Math.hypot(p[0] - from.x, p[1] - from.y),
    Math.hypot(p[0] - to.x, p[1] - to.y),
  );
  if (from.arc === null) return toEnds;
  const { centre, radius, start, end } = from.arc;
  const angle = Math.atan2(p[1] - centre[1], p[0] - centre[0]);
  const full = 2 * Math.PI;
  const turned = (a: number): number => ((a % full) + full) % full;
  const within = turned(angle - start) <= turned(end - start);
  return within ? Math.abs(Math.hypot(p[0] - centre[0], p[1] - centre[1]) - radius) : toEnds;
};
