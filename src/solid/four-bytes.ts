import { NOISE_MM } from '../geometry/tolerance.ts';
import type { Vec3 } from '../geometry/vec3.ts';

/**
 * A place in mm, or a unit normal, times a factor, as numbers of four bytes hold it. A number no
 * larger than the noise becomes zero, and never negative zero. The digits of such noise depend on
 * the engine, whose sines may end differently from another's (ECMAScript, 21.3.2), and the file
 * must be the same from each. Numbers of four bytes would not show it beside 1 in any case.
 */
export const fourBytes = ([x, y, z]: Vec3, factor = 1): Vec3 => {
  const held = (v: number): number => (Math.abs(v) < NOISE_MM ? 0 : Math.fround(v * factor));
  return [held(x), held(y), held(z)];
};
