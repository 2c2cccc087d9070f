import { type Loop, vertexAt } from './loop.ts';
import { type Motion2, motionBetween, movePoint } from './motion2.ts';
import { distance, sub, unit, type Vec2 } from './vec2.ts';

/** Turns a point over about the y axis; its own inverse. */
export const overY = ([x, y]: Vec2): Vec2 => [-x, y];

/**
 * The motions that, after `overY`, lay a loop onto itself: one for each axis of symmetry, so none
 * for most loops. Vertices go onto vertices, so a circle has only the axes of its two halves.
 * Points may miss each other by `withinMm`.
 */
export function ownMirrors(loop: Loop, withinMm: number): readonly Motion2[] {
  // The loop that is turned over runs the other way. Walked backwards, each vertex has the bulge of
  // the piece before.
  const turned: Loop = loop.map((_, i) => {
    const [x, y] = overY([vertexAt(loop, -i).x, vertexAt(loop, -i).y]);
    return { x, y, bulge: vertexAt(loop, -i - 1).bulge };
  });
  const motions = loop.map((_, start) =>
    motionBetween(
      pointOf(turned, 0),
      directionOf(turned, 0),
      pointOf(loop, start),
      directionOf(loop, start),
    ),
  );
  return motions.filter((motion, start) =>
    turned.every((vertex, i) => {
      const other = vertexAt(loop, start + i);
      return (
        distance(movePoint(motion, [vertex.x, vertex.y]), [other.x, other.y]) <= withinMm &&
        Math.abs(vertex.bulge - other.bulge) <= SAME_BULGE
      );
    }),
  );
}

/**
 * Two bulges that differ by less are those of one arc: over a chord of a metre the difference is
 * 0.001 mm.
 */
const SAME_BULGE = 1e-6;

const pointOf = (loop: Loop, i: number): Vec2 => [vertexAt(loop, i).x, vertexAt(loop, i).y];
const directionOf = (loop: Loop, i: number): Vec2 =>
  unit(sub(pointOf(loop, i + 1), pointOf(loop, i)));
