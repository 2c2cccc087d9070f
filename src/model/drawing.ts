import type { Loop } from '../geometry/loop.ts';
import type { Vec2 } from '../geometry/vec2.ts';

/**
 * What a line on the drawing is for; `cut` is outline and holes alike. Each writer decides how a
 * role looks.
 */
export type Role = 'outline' | 'hole' | 'cut' | 'fold-up' | 'fold-down' | 'mark' | 'note';

/** One thing on the drawing. Millimetres, y up. */
export type DrawingItem =
  | { readonly kind: 'loop'; readonly role: Role; readonly loop: Loop }
  | { readonly kind: 'circle'; readonly role: Role; readonly centre: Vec2; readonly radius: number }
  | { readonly kind: 'line'; readonly role: Role; readonly from: Vec2; readonly to: Vec2 }
  /**
   * `at` is the left end of the base line; `angleDeg` turns the text counter-clockwise about it.
   * Never mirrored.
   */
  | {
      readonly kind: 'text';
      readonly role: Role;
      readonly at: Vec2;
      readonly heightMm: number;
      readonly angleDeg: number;
      readonly text: string;
      /** What it says where the blank lies turned over; the same when left out. */
      readonly turnedOver?: string;
    };

/**
 * A flat blank as lines to cut and lines to fold at: what every writer reads.
 * The blank's lower left corner is at the origin.
 */
export interface Drawing {
  /** Part name, hand included; free text. */
  readonly title: string;
  /**
   * Comment near the start of the file, by which it is recognised as made by this tool for this
   * part.
   */
  readonly mark?: string;
  /**
   * Further comments in the file, a line each, such as how its bends were allowed for. They stay
   * when all notes are left out.
   */
  readonly remarks?: readonly string[];
  /**
   * Whether its cuts stand in the order in which they are to be cut, and stay in it in a file;
   * otherwise a file has them by layer.
   */
  readonly hasCutOrder?: boolean;
  readonly items: readonly DrawingItem[];
}
