import { NOISE_MM } from '../geometry/tolerance.ts';
import type { Vec3 } from '../geometry/vec3.ts';

/**
 * A place in mm, or a unit normal, times a factor, as numbers of four bytes hold it. What is no more
 * than the noise is zero, and never a negative one: its digits are those of the engine, whose sines
 * may end otherwise than another's (ECMAScript, 21.3.2), and the file is to be the same from each.
 * Beside 1 numbers of four bytes do not show it either.
 */
export const fourBytes = ([x, y, z]: Vec3, factor = 1): Vec3 => {
  const held = (v: number): number => (Math.abs(v) < NOISE_MM ? 0 : Math.fround(v * factor));
  return [held(x), held(y), held(z)];
};
