import { along3, dot3, scale3, type Vec3 } from './vec3.ts';

/** A rigid placing of a panel in space: where its origin and its three axes come to lie. Right-handed. */
export interface Pose {
  readonly o: Vec3;
  readonly x: Vec3;
  readonly y: Vec3;
  readonly z: Vec3;
}

export const AT_HOME: Pose = { o: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };

export const poseVector = (p: Pose, v: Vec3): Vec3 => along3(along3(scale3(p.x, v[0]), p.y, v[1]), p.z, v[2]);

export const posePoint = (p: Pose, v: Vec3): Vec3 => along3(poseVector(p, v), p.o, 1);

/** First `inner`, then `outer`. */
export const composePoses = (outer: Pose, inner: Pose): Pose => ({
  o: posePoint(outer, inner.o),
  x: poseVector(outer, inner.x),
  y: poseVector(outer, inner.y),
  z: poseVector(outer, inner.z),
});

/** What takes the placed panel back. */
export const invertPose = (p: Pose): Pose => ({
  o: [-dot3(p.o, p.x), -dot3(p.o, p.y), -dot3(p.o, p.z)],
  x: [p.x[0], p.y[0], p.z[0]],
  y: [p.x[1], p.y[1], p.z[1]],
  z: [p.x[2], p.y[2], p.z[2]],
});
