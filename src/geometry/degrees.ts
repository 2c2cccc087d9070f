import type { Vec2 } from './vec2.ts';

/** Cosine of an angle in degrees, exact at every quarter turn. */
export const cosDeg = (deg: number): number => sinDeg(deg + 90);

/** Sine of an angle in degrees, exact at every quarter turn. */
export const sinDeg = (deg: number): number => {
  const turn = ((deg % 360) + 360) % 360;
  if (turn % 90 === 0) return turn === 90 ? 1 : turn === 270 ? -1 : 0;
  return Math.sin((turn * Math.PI) / 180);
};

/** Tangent of an angle in degrees. */
export const tanDeg = (deg: number): number => sinDeg(deg) / cosDeg(deg);

/** A point turned counter-clockwise about the origin, exact at every quarter turn. */
export const turnedDeg = ([x, y]: Vec2, deg: number): Vec2 => [
  cosDeg(deg) * x - sinDeg(deg) * y,
  sinDeg(deg) * x + cosDeg(deg) * y,
];
