import { arcOf } from '../geometry/arc.ts';
import type { Loop, Vertex } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { pieceOf } from '../geometry/piece.ts';
import { distance, type Vec2 } from '../geometry/vec2.ts';

/**
 * A closed cut line, counter-clockwise. A full circle is two half ones, and is marked as a circle.
 */
export interface Contour {
  readonly loop: Loop;
  readonly circle?: { readonly centre: Vec2; readonly radius: number };
}

export const circleContour = (centre: Vec2, radius: number): Contour => ({
  loop: [
    { x: centre[0] + radius, y: centre[1], bulge: 1 },
    { x: centre[0] - radius, y: centre[1], bulge: 1 },
  ],
  circle: { centre, radius },
});

export const contourOf = (given: Loop): Contour => {
  const loop = signedArea(given) < 0 ? reversed(given) : given;
  const circle = circleOf(loop);
  return circle === undefined ? { loop } : { loop, circle };
};

const reversed = (loop: Loop): Loop =>
  loop.map((_, i) => {
    const at = loop[loop.length - 1 - i] as Vertex;
    return {
      x: at.x,
      y: at.y,
      bulge: -(loop[(2 * loop.length - 2 - i) % loop.length] as Vertex).bulge + 0,
    };
  });

/** Arcs whose middles and radii differ by less, mm, lie on one circle. */
const SAME_CIRCLE_MM = 0.005;

/** The circle of a loop whose pieces are all arcs of one circle. */
const circleOf = (loop: Loop): Contour['circle'] => {
  if (loop.some((v) => v.bulge <= 0)) return undefined;
  const arcs = loop.map((_, i) => {
    const p = pieceOf(loop, i);
    return arcOf(p.from, p.to, p.bulge);
  });
  const [first, ...rest] = arcs;
  if (first === undefined) return undefined;
  const same = rest.every(
    (a) =>
      distance(a.centre, first.centre) < SAME_CIRCLE_MM &&
      Math.abs(a.radius - first.radius) < SAME_CIRCLE_MM,
  );
  return same ? { centre: first.centre, radius: first.radius } : undefined;
};
