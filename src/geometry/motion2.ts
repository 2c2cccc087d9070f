import { cosDeg, sinDeg } from './degrees.ts';
import type { Loop, Vertex } from './loop.ts';
import type { Vec2 } from './vec2.ts';

/**
 * A turn by the angle whose cosine and sine are `c` and `s`, followed by a shift by (`x`, `y`),
 * without mirroring.
 */
export interface Motion2 {
  readonly c: number;
  readonly s: number;
  readonly x: number;
  readonly y: number;
}

export const STILL: Motion2 = { c: 1, s: 0, x: 0, y: 0 };

export const shift = (x: number, y: number): Motion2 => ({ c: 1, s: 0, x, y });

/** A turn counter-clockwise about 0,0, followed by a shift. */
export const turnedBy = (turnDeg: number, x = 0, y = 0): Motion2 => ({
  c: cosDeg(turnDeg),
  s: sinDeg(turnDeg),
  x,
  y,
});

export const movePoint = (m: Motion2, p: Vec2): Vec2 => [
  m.c * p[0] - m.s * p[1] + m.x,
  m.s * p[0] + m.c * p[1] + m.y,
];

export const moveVector = (m: Motion2, v: Vec2): Vec2 => [
  m.c * v[0] - m.s * v[1],
  m.s * v[0] + m.c * v[1],
];

/** A vertex keeps its bulge: turning and shifting do not bend an arc the other way. */
export const moveVertex = <V extends Vertex>(m: Motion2, v: V): V => {
  const [x, y] = movePoint(m, [v.x, v.y]);
  return { ...v, x, y };
};

export const moveLoop = <V extends Vertex>(m: Motion2, loop: Loop<V>): V[] =>
  loop.map((v) => moveVertex(m, v));

/** The motion that does `inner` first, then `outer`. */
export const compose = (outer: Motion2, inner: Motion2): Motion2 => {
  const [x, y] = movePoint(outer, [inner.x, inner.y]);
  return {
    c: outer.c * inner.c - outer.s * inner.s,
    s: outer.s * inner.c + outer.c * inner.s,
    x,
    y,
  };
};

export const invert = (m: Motion2): Motion2 => ({
  c: m.c,
  s: -m.s,
  x: -(m.c * m.x + m.s * m.y),
  y: m.s * m.x - m.c * m.y,
});

/**
 * The motion that takes the frame with origin `from` and unit direction `fromDir` to the one with
 * `to` and `toDir`.
 */
export const motionBetween = (from: Vec2, fromDir: Vec2, to: Vec2, toDir: Vec2): Motion2 => {
  const c = fromDir[0] * toDir[0] + fromDir[1] * toDir[1];
  const s = fromDir[0] * toDir[1] - fromDir[1] * toDir[0];
  return { c, s, x: to[0] - (c * from[0] - s * from[1]), y: to[1] - (s * from[0] + c * from[1]) };
};
