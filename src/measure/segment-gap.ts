import { along3, dot3, length3, sub3, type Vec3 } from '../geometry/vec3.ts';
import { NEARLY_PARALLEL_SINE } from '../geometry/tolerance.ts';

/** A straight line in space, from end to end. */
export type Segment = readonly [Vec3, Vec3];

/**
 * The least distance between two segments: the nearest points of the two lines, each kept within
 * its ends in turn (Ericson, Real-Time Collision Detection, 5.1.9, from memory).
 */
export const segmentGap = ([p, p1]: Segment, [q, q1]: Segment): number => {
  const [d, e, r] = [sub3(p1, p), sub3(q1, q), sub3(p, q)];
  const [a, b, c, f, g] = [dot3(d, d), dot3(d, e), dot3(d, r), dot3(e, e), dot3(e, r)];
  const span = a * f - b * b;
  const s = span > NEARLY_PARALLEL_SINE ** 2 * a * f ? within((b * g - c * f) / span) : 0;
  const t = within((b * s + g) / f);
  const s2 = within((b * t - c) / a);
  return length3(sub3(along3(p, d, s2), along3(q, e, t)));
};

const within = (share: number): number => Math.min(1, Math.max(0, share));
