/** A point or a vector in space, millimetres. */
export type Vec3 = readonly [x: number, y: number, z: number];

export const dot3 = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
/** `a + k b`. */
export const along3 = (a: Vec3, b: Vec3, k: number): Vec3 => [
  a[0] + k * b[0],
  a[1] + k * b[1],
  a[2] + k * b[2],
];
export const sub3 = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
/** `p a + q b`. */
export const mix3 = (a: Vec3, p: number, b: Vec3, q: number): Vec3 => [
  p * a[0] + q * b[0],
  p * a[1] + q * b[1],
  p * a[2] + q * b[2],
];
export const scale3 = (a: Vec3, k: number): Vec3 => [a[0] * k, a[1] * k, a[2] * k];
export const length3 = (a: Vec3): number => Math.hypot(a[0], a[1], a[2]);
export const unit3 = (a: Vec3): Vec3 => scale3(a, 1 / length3(a));
export const cross3 = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
