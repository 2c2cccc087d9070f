import { arcOf } from './arc.ts';
import type { Loop, Vertex } from './loop.ts';
import type { Vec2 } from './vec2.ts';

/**
 * Whether a point lies inside a loop of lines and arcs, whichever way it runs. The answer for a
 * point on the loop itself may be either; callers that care measure the distance as well.
 *
 * The chords make a polygon; each arc adds or takes away the segment between its chord and itself.
 * A point level with a chord counts as right of a rising one and left of a falling one, in both
 * steps, so no point is lost between them.
 */
export function isInside(loop: Loop, p: Vec2): boolean {
  let inside = false;
  for (let i = 0; i < loop.length; i++) {
    const a = loop[i] as Vertex;
    const b = loop[i + 1] ?? (loop[0] as Vertex);
    const rising = b.y > a.y;
    const side = (b.x - a.x) * (p[1] - a.y) - (b.y - a.y) * (p[0] - a.x);
    const level = rising || (b.y === a.y && b.x < a.x);
    const isRight = side < 0 || (side === 0 && level);
    if (a.y <= p[1] !== b.y <= p[1] && isRight !== rising) inside = !inside;
    if (a.bulge !== 0 && isRight === a.bulge > 0 && inCircle(a, b, p)) inside = !inside;
  }
  return inside;
}

const inCircle = (a: Vertex, b: Vertex, p: Vec2): boolean => {
  const { centre, radius } = arcOf([a.x, a.y], [b.x, b.y], a.bulge);
  return Math.hypot(p[0] - centre[0], p[1] - centre[1]) < radius;
};
