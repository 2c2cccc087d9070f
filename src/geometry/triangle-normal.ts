import { cross3, length3, sub3, type Vec3 } from './vec3.ts';
import { NO_SIZE_MM } from './tolerance.ts';

/**
 * The unit normal of a triangle, towards the side from which it runs counter-clockwise; `undefined`
 * for a triangle that is a line.
 */
export const triangleNormal = (p: Vec3, q: Vec3, r: Vec3): Vec3 | undefined => {
  const [a, b, c] = [sub3(q, p), sub3(r, q), sub3(p, r)];
  const n = cross3(a, b);
  const size = length3(n);
  if (size <= NO_SIZE_MM * Math.max(length3(a), length3(b), length3(c))) return undefined;
  return [n[0] / size, n[1] / size, n[2] / size];
};
