/** A piece of stock with what is laid on it, as JSON has it: mm, the stock's lower left corner at 0,0. */
export interface LaidSheetResult {
  /** Name of the sheet among all that are laid; its files are called by it. */
  readonly name: string;
  /** Name of the piece of stock. */
  readonly stock: string;
  readonly isRemnant: boolean;
  /** Id of the material. */
  readonly material: string;
  readonly thicknessMm: number;
  /** What one such sheet costs, in the shop's own currency; `null` where nobody says. */
  readonly price: number | null;
  /** Which way its grain runs; `null` where nobody says. */
  readonly grain: 'x' | 'y' | null;
  /** Least distance that was kept between parts, and from the edges of the stock. */
  readonly gapMm: number;
  readonly edgeMm: number;
  /** Height of the strip along the lower edge that clamps hold, of each sheared piece; 0 for none. */
  readonly clampsMm: number;
  /**
   * Where the stock is sheared before it is cut, since it is larger than the bed of the cutter: cuts
   * along y by their x, and along x by their y; `null` where it is cut as it is.
   */
  readonly shears: { readonly x: readonly number[]; readonly y: readonly number[] } | null;
  /** The edge of the stock, and of each hole that is in it already, counter-clockwise. */
  readonly outline: readonly CornerResult[];
  readonly holes: readonly (readonly CornerResult[])[];
  readonly parts: readonly LaidPartResult[];
}

/** A corner; the tangent of a quarter of the angle by which the edge behind it turns, 0 if straight. */
export type CornerResult = readonly [x: number, y: number, bulge: number];

/**
 * A part as it lies: its drawing turned over first where it says so (x becomes -x), then turned
 * counter-clockwise about its own 0,0, then moved by x, y.
 */
export interface LaidPartResult {
  readonly name: string;
  /** Which of the parts of this name it is, from 1. */
  readonly copy: number;
  readonly x: number;
  readonly y: number;
  readonly turnDeg: number;
  readonly turnedOver: boolean;
}
