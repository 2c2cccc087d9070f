import type { PaperMark } from '../../model/paper-mark.ts';
import type { Printed } from '../../text/printed.ts';

/** What the drawing of a folded part says in words. */
export interface DrawingHead {
  readonly paperMark: PaperMark;
  /** What there is to beware of, in a few words each and in full. */
  readonly cautions: readonly { readonly short: string; readonly text: string }[];
  /** As the user wrote it; empty where it is to be filled in by hand. */
  readonly date: string;
  readonly name: string;
  /** Only where the other hand is drawn too. */
  readonly hand?: 'left' | 'right';
  readonly quantity: number;
  /** As on an order, and its thickness: `S235JR, 2 mm`. */
  readonly sheet: string;
  readonly thicknessMm: number;
  readonly massKg: number;
  /** Overall, folded: the largest panel's two ways first. */
  readonly sizeMm: readonly [number, number, number];
  readonly measure: 'outside' | 'inside';
  /** Class of ISO 2768-1. */
  readonly tolerance: 'f' | 'm' | 'c' | 'v';
  readonly grain: string;
  readonly protect: string;
  readonly revision: string;
  /** How its lengths are written. */
  readonly print: Printed;
  /** The name of the drawing's own file. */
  readonly file: string;
  /** The file that the blank is cut from. */
  readonly cutFile: string;
}

/** One bend of the table. */
export interface DrawnBend {
  readonly id: string;
  readonly angleDeg: number;
  readonly direction: 'up' | 'down';
  readonly insideRadiusMm: number;
}
