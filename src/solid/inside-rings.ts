import type { Vec2 } from '../geometry/vec2.ts';

/** Whether a point lies inside an odd number of straight-sided rings. */
export const insideRings = (rings: readonly (readonly Vec2[])[], [x, y]: Vec2): boolean => {
  let inside = false;
  for (const ring of rings) {
    let [px, py] = ring[ring.length - 1] as Vec2;
    for (const [qx, qy] of ring) {
      if (py > y !== qy > y && x < px + ((y - py) * (qx - px)) / (qy - py)) inside = !inside;
      [px, py] = [qx, qy];
    }
  }
  return inside;
};
