import type { Motion2 } from '../geometry/motion2.ts';
import type { Pose } from '../geometry/pose.ts';

/** A motion of the drawing's plane as a pose in space. */
export const flatPose = (m: Motion2): Pose => ({
  o: [m.x, m.y, 0],
  x: [m.c, m.s, 0],
  y: [-m.s, m.c, 0],
  z: [0, 0, 1],
});
