import type { Motion2 } from './motion2.ts';
import { dot3, type Vec3 } from './vec3.ts';

/**
 * A rigid placing of a panel in space: the positions of its origin and of its three axes. The axes
 * are right-handed.
 */
export interface Pose {
  readonly o: Vec3;
  readonly x: Vec3;
  readonly y: Vec3;
  readonly z: Vec3;
}

export const AT_HOME: Pose = { o: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };

/** A motion of the drawing's plane as a pose in space. */
export const flatPose = (m: Motion2): Pose => ({
  o: [m.x, m.y, 0],
  x: [m.c, m.s, 0],
  y: [-m.s, m.c, 0],
  z: [0, 0, 1],
});

// These are the innermost steps of folding a part up, done millions of times while it is planned,
// so they are plain sums with no helper calls.
export const poseVector = ({ x, y, z }: Pose, v: Vec3): Vec3 => [
  x[0] * v[0] + y[0] * v[1] + z[0] * v[2],
  x[1] * v[0] + y[1] * v[1] + z[1] * v[2],
  x[2] * v[0] + y[2] * v[1] + z[2] * v[2],
];

export const posePoint = ({ o, x, y, z }: Pose, v: Vec3): Vec3 => [
  x[0] * v[0] + y[0] * v[1] + z[0] * v[2] + o[0],
  x[1] * v[0] + y[1] * v[1] + z[1] * v[2] + o[1],
  x[2] * v[0] + y[2] * v[1] + z[2] * v[2] + o[2],
];

/** The pose that does `inner` first, then `outer`. */
export const composePoses = (outer: Pose, inner: Pose): Pose => ({
  o: posePoint(outer, inner.o),
  x: poseVector(outer, inner.x),
  y: poseVector(outer, inner.y),
  z: poseVector(outer, inner.z),
});

/** The pose that takes the placed panel back. */
export const invertPose = (p: Pose): Pose => ({
  o: [-dot3(p.o, p.x), -dot3(p.o, p.y), -dot3(p.o, p.z)],
  x: [p.x[0], p.y[0], p.z[0]],
  y: [p.x[1], p.y[1], p.z[1]],
  z: [p.x[2], p.y[2], p.z[2]],
});
