import type { Loop } from '../geometry/loop.ts';
import type { Material } from './material.ts';
import { isOfSheet } from './sheets.ts';

/** Which way the grain of a sheet runs, as it lies in the drawing of it: along x or along y. */
export type GrainAxis = 'x' | 'y';

/**
 * A piece of stock that parts can be cut from: a whole sheet, a strip or what was left of one.
 * Millimetres; its box has the lower left corner at 0,0, with the longer side of a whole sheet
 * along x.
 */
export interface StockPiece {
  /** What it is called; of a remnant what is chalked on it. No two pieces of a shop share it. */
  readonly name: string;
  /** Family or id of the material that it is of; any when left out. */
  readonly material?: string | undefined;
  readonly thicknessMm?: number | undefined;
  readonly isRemnant: boolean;
  readonly outline: Loop;
  /** What is cut out of it already, each counter-clockwise. */
  readonly holes: readonly Loop[];
  /** How many are there; as many as are wanted can be bought when left out. */
  readonly count?: number | undefined;
  /** What one costs, in the shop's own currency. */
  readonly price?: number | undefined;
  readonly grain?: GrainAxis | undefined;
  /** Where it is sheared before it is cut, since it is larger than the bed of the cutter. */
  readonly shears?: Shears | undefined;
}

/** Straight cuts from edge to edge of a rectangle, mm from its lower left corner, in order. */
export interface Shears {
  /** Cuts along y, by their x. */
  readonly x: readonly number[];
  /** Cuts along x, by their y. */
  readonly y: readonly number[];
}

/** Whether parts of a material and thickness may be cut from it. */
export const isOfStock = (
  { material, thicknessMm }: Pick<StockPiece, 'material' | 'thicknessMm'>,
  of: { readonly id: string; readonly family: Material['family'] },
  thickness: number,
): boolean => isOfSheet({ material, thickness: thicknessMm }, of, thickness);
