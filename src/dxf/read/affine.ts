import type { Vec2 } from '../../geometry/vec2.ts';
import { NOISE_SHARE } from '../../geometry/tolerance.ts';

/** A map that takes (x, y) to (a x + c y + e, b x + d y + f). */
export interface Affine {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

export const scaling = (x: number, y: number): Affine => ({ a: x, b: 0, c: 0, d: y, e: 0, f: 0 });

export const shifting = (e: number, f: number): Affine => ({ a: 1, b: 0, c: 0, d: 1, e, f });

export const turning = (deg: number): Affine => {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return { a: c, b: s, c: -s, d: c, e: 0, f: 0 };
};

/** The map that applies the last of the given ones first. */
export const inTurn = (...all: readonly [Affine, ...Affine[]]): Affine =>
  all.reduce((outer, inner) => {
    const [e, f] = mapPoint(outer, [inner.e, inner.f]);
    const [a, b] = mapVector(outer, [inner.a, inner.b]);
    const [c, d] = mapVector(outer, [inner.c, inner.d]);
    return { a, b, c, d, e, f };
  });

export const mapVector = (m: Affine, [x, y]: Vec2): Vec2 => [m.a * x + m.c * y, m.b * x + m.d * y];

export const mapPoint = (m: Affine, p: Vec2): Vec2 => {
  const [x, y] = mapVector(m, p);
  return [x + m.e, y + m.f];
};

/** Whether every point stays where it is. */
export const isAtRest = ({ a, b, c, d, e, f }: Affine): boolean =>
  a === 1 && b === 0 && c === 0 && d === 1 && e === 0 && f === 0;

export const isMirror = ({ a, b, c, d }: Affine): boolean => a * d - b * c < 0;

/** Whether circles stay circles, to within 1e-12 of their size. */
export const keepsCircles = ({ a, b, c, d }: Affine): boolean => {
  const [first, second] = [a * a + b * b, c * c + d * d];
  const slack = NOISE_SHARE * Math.max(first, second);
  return Math.abs(first - second) <= slack && Math.abs(a * c + b * d) <= slack;
};
