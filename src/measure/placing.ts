import type { Loop } from '../geometry/loop.ts';
import { sub, type Vec2 } from '../geometry/vec2.ts';

/** How the blank lies in a file: mirrored in its y axis or not, then turned, scaled and shifted. */
export interface Alignment {
  readonly mirrored: boolean;
  /** Cosine and sine of the turn, times the scale. */
  readonly a: number;
  readonly b: number;
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

export const AS_MADE: Alignment = { mirrored: false, a: 1, b: 0, x: 0, y: 0, scale: 1 };

export const placed = ({ mirrored, a, b, x, y }: Alignment, [px, py]: Vec2): Vec2 => {
  const u = mirrored ? -px : px;
  return [a * u - b * py + x, b * u + a * py + y];
};

export const placedVector = ({ mirrored, a, b }: Alignment, [px, py]: Vec2): Vec2 => {
  const u = mirrored ? -px : px;
  return [a * u - b * py, b * u + a * py];
};

export const loopOf = (vertices: readonly (readonly [number, number, number])[]): Loop =>
  vertices.map(([x, y, bulge]) => ({ x, y, bulge }));

/** The placing that takes two points to two others. */
export const onto = (
  [p, q]: readonly [Vec2, Vec2],
  [u, v]: readonly [Vec2, Vec2],
  mirrored: boolean,
): Alignment => {
  const [d, e] = [sub(q, p), sub(v, u)];
  const [dx, dy] = [mirrored ? -d[0] : d[0], d[1]];
  const size = dx * dx + dy * dy || 1;
  const [a, b] = [(e[0] * dx + e[1] * dy) / size, (e[1] * dx - e[0] * dy) / size];
  const [px, py] = [mirrored ? -p[0] : p[0], p[1]];
  return {
    mirrored,
    a,
    b,
    x: u[0] - a * px + b * py,
    y: u[1] - b * px - a * py,
    scale: Math.hypot(a, b),
  };
};
