import type { Vec2 } from '../../geometry/vec2.ts';

/**
 * Equal parts in an order that repeats: one shape, or two beside each other, at every whole number of
 * two steps. Nothing of it overlaps, and its parts touch each other.
 */
export interface Lattice {
  /** Numbers of the shapes that repeat. */
  readonly shapes: readonly number[];
  /** Where the 0,0 of each lies, from that of the first. */
  readonly offsets: readonly Vec2[];
  readonly along: Vec2;
  readonly across: Vec2;
  /** Area of the sheet that one part takes. */
  readonly areaEach: number;
}
