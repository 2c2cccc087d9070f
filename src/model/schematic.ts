import type { Vec2 } from '../geometry/vec2.ts';

/** The size of every schematic, in the units that it is drawn in, y up. */
export const SCHEMATIC = { width: 110, height: 84 } as const;

/**
 * What a family is asked, drawn by hand: not to scale and the same whatever is given, but for what
 * does not apply and is left out.
 */
export interface Schematic {
  /** What of the whole it shows, where there are several: `other end`. */
  readonly of?: string;
  readonly lines: readonly SchematicLine[];
  readonly sizes: readonly SchematicSize[];
}

export interface SchematicLine {
  readonly points: readonly Vec2[];
  /** An edge that is seen where it is left out. */
  readonly as?: 'thin' | 'hidden' | 'centre';
}

/** Where the letter of an input stands. */
export type SchematicSize =
  /** On a line with arrows from point to point; `feet` are where that is measured, if elsewhere. */
  | {
      readonly input: string;
      readonly from: Vec2;
      readonly to: Vec2;
      readonly feet?: readonly [Vec2, Vec2];
    }
  /** On an arc, counter-clockwise. */
  | {
      readonly input: string;
      readonly at: Vec2;
      readonly radius: number;
      readonly fromDeg: number;
      readonly toDeg: number;
    };
