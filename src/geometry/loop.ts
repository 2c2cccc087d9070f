import type { Vec2 } from './vec2.ts';

/**
 * The start of one piece of a loop. The piece runs from here to the next vertex (the last one to
 * the first). `bulge` is the tangent of a quarter of the sweep: 0 a straight line, positive a
 * counter-clockwise arc, negative a clockwise one, 1 a half circle.
 */
export interface Vertex {
  readonly x: number;
  readonly y: number;
  readonly bulge: number;
}

/**
 * A closed curve of lines and true arcs, millimetres, closed by construction: the end of each piece
 * *is* the start of the next. Outlines run counter-clockwise (metal on the left), holes in them
 * too: role, not direction, tells an outline from a hole.
 */
export type Loop<V extends Vertex = Vertex> = readonly V[];

/** A straight-sided loop through points. */
export const polygon = (...points: readonly Vec2[]): Loop =>
  points.map(([x, y]) => ({ x, y, bulge: 0 }));

/** A rectangle with its lower left corner at (x, y), counter-clockwise. */
export const rectangle = (x: number, y: number, width: number, height: number): Loop =>
  polygon([x, y], [x + width, y], [x + width, y + height], [x, y + height]);

/** The vertex at an index that may run over either end of the loop. */
export const vertexAt = <V extends Vertex>(loop: Loop<V>, i: number): V =>
  loop[wrapped(loop, i)] as V;

/** An index that may run over either end of a loop, as one within it. */
export const wrapped = (loop: Loop, i: number): number =>
  ((i % loop.length) + loop.length) % loop.length;
