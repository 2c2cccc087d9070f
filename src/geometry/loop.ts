/**
 * The start of one piece of a loop. The piece runs from here to the next vertex, from the last one
 * to the first. `bulge` is the tangent of a quarter of the sweep: 0 is a straight line, positive a
 * counter-clockwise arc, negative a clockwise one, and 1 a half circle.
 */
export interface Vertex {
  readonly x: number;
  readonly y: number;
  readonly bulge: number;
  /** Name of the piece, where it has one: `top`. Whatever is cut from the piece keeps the name. */
  readonly edge?: string;
}

/**
 * A closed curve of lines and true arcs, millimetres, closed by construction: the end of each piece
 * *is* the start of the next. Outlines and the holes in them both run counter-clockwise (outlines
 * have the metal on the left). An outline is told from a hole by its role, not by its direction.
 */
export type Loop<V extends Vertex = Vertex> = readonly V[];

/** A corner of a polygon, with the name of the edge that starts there if it has one. */
export type PolygonPoint = readonly [x: number, y: number, edge?: string];

/** A straight-sided loop through points. */
export const polygon = (...points: readonly PolygonPoint[]): Loop =>
  points.map(([x, y, edge]) => ({ x, y, bulge: 0, ...(edge !== undefined && { edge }) }));

/**
 * A rectangle with its lower left corner at (x, y), counter-clockwise; its edges are `bottom`,
 * `right`, `top` and `left`.
 */
export const rectangle = (x: number, y: number, width: number, height: number): Loop =>
  polygon(
    [x, y, 'bottom'],
    [x + width, y, 'right'],
    [x + width, y + height, 'top'],
    [x, y + height, 'left'],
  );

/** The names of a loop's edges, in their order round it. */
export const edgeNames = (loop: Loop): string[] =>
  loop.flatMap(({ edge }) => (edge === undefined ? [] : [edge]));

/** The edges of a loop that have a name; one edge, where each has a name of its own. */
export const edgesCalled = (loop: Loop, name: string): number[] =>
  loop.flatMap(({ edge }, i) => (edge === name ? [i] : []));

/** The vertex at an index that may run past either end of the loop. */
export const vertexAt = <V extends Vertex>(loop: Loop<V>, i: number): V =>
  loop[wrapped(loop, i)] as V;

/** An index that may run past either end of a loop, brought to one within it. */
export const wrapped = (loop: Loop, i: number): number =>
  ((i % loop.length) + loop.length) % loop.length;
