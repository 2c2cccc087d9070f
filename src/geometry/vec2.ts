/** A point or a vector in the plane, millimetres, y up. */
export type Vec2 = readonly [x: number, y: number];

export const add = (a: Vec2, b: Vec2): Vec2 => [a[0] + b[0], a[1] + b[1]];
export const sub = (a: Vec2, b: Vec2): Vec2 => [a[0] - b[0], a[1] - b[1]];
export const scale = (a: Vec2, k: number): Vec2 => [a[0] * k, a[1] * k];
/** `a + k b`. */
export const along = (a: Vec2, b: Vec2, k: number): Vec2 => [a[0] + k * b[0], a[1] + k * b[1]];
export const dot = (a: Vec2, b: Vec2): number => a[0] * b[0] + a[1] * b[1];
/** z component of the cross product: positive when `b` lies counter-clockwise of `a`. */
export const cross = (a: Vec2, b: Vec2): number => a[0] * b[1] - a[1] * b[0];
export const length = (a: Vec2): number => Math.hypot(a[0], a[1]);
export const distance = (a: Vec2, b: Vec2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
export const middle = (a: Vec2, b: Vec2): Vec2 => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
/**
 * A vector turned a quarter counter-clockwise: towards the side on which a counter-clockwise loop
 * has its metal.
 */
export const leftOf = (a: Vec2): Vec2 => [-a[1], a[0]];

/** A vector scaled to length 1; the null vector stays null. */
export const unit = (a: Vec2): Vec2 => {
  const l = Math.hypot(a[0], a[1]);
  return l === 0 ? a : [a[0] / l, a[1] / l];
};
