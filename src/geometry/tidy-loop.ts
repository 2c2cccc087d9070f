import type { Loop, Vertex } from './loop.ts';
import { NOISE_MM } from './tolerance.ts';

/**
 * The same curve without pieces that have no length and without vertices in the middle of a
 * straight line. The data of a vertex that is dropped goes with it: the piece before it runs on.
 */
export const tidyLoop = <V extends Vertex>(loop: Loop<V>): Loop<V> =>
  withoutStraightVertices(withoutPoints(loop));

/**
 * The loop without pieces whose ends coincide. A full circle of one vertex cannot be written as a
 * loop and never occurs.
 */
const withoutPoints = <V extends Vertex>(loop: Loop<V>): Loop<V> =>
  loop.filter((v, i) => {
    const next = loop[(i + 1) % loop.length] as V;
    return Math.abs(next.x - v.x) > NOISE_MM || Math.abs(next.y - v.y) > NOISE_MM;
  });

const withoutStraightVertices = <V extends Vertex>(loop: Loop<V>): Loop<V> => {
  const kept: V[] = [];
  for (let i = 0; i < loop.length; i++) {
    const v = loop[i] as V;
    const before = kept[kept.length - 1] ?? (loop[loop.length - 1] as V);
    const next = loop[(i + 1) % loop.length] as V;
    if (!runsOn(before, v, next)) kept.push(v);
  }
  return kept;
};

/** Whether a vertex lies on a straight line between its neighbours, walked without turning back. */
const runsOn = (before: Vertex, v: Vertex, next: Vertex): boolean => {
  if (before.bulge !== 0 || v.bulge !== 0) return false;
  const [ax, ay] = [v.x - before.x, v.y - before.y];
  const [bx, by] = [next.x - v.x, next.y - v.y];
  const chord = Math.hypot(ax + bx, ay + by);
  return ax * bx + ay * by > 0 && Math.abs(ax * by - ay * bx) <= NOISE_MM * chord;
};
