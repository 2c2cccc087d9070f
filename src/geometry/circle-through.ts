import { cross, dot, sub, type Vec2 } from './vec2.ts';

export interface CircleThrough {
  readonly centre: Vec2;
  readonly radius: number;
  /** Whether the way from the first point over the second to the third turns to the left. */
  readonly isLeft: boolean;
}

/** The circle through three points (plane geometry); undefined where they lie in one line. */
export const circleThrough = (a: Vec2, b: Vec2, c: Vec2): CircleThrough | undefined => {
  const [u, v] = [sub(b, a), sub(c, a)];
  const twice = 2 * cross(u, v);
  if (twice === 0) return undefined;
  const [uu, vv] = [dot(u, u), dot(v, v)];
  const off: Vec2 = [(v[1] * uu - u[1] * vv) / twice, (u[0] * vv - v[0] * uu) / twice];
  return {
    centre: [a[0] + off[0], a[1] + off[1]],
    radius: Math.hypot(off[0], off[1]),
    isLeft: twice > 0,
  };
};
