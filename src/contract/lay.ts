import type { LaidSheetResult } from './laid.ts';
import type { FindingResult } from './part.ts';
import type { TakenStock } from './stock.ts';

/** The JSON document of `lay --strip --json`. */
export interface StripResult {
  /** Length of the strip that is taken up, in the unit of the file. */
  readonly usedLength: number;
  /** Area of the items in per cent of width times used length. */
  readonly densityPercent: number;
  /**
   * Where everything lies: the item's polygon turned about its own 0,0, counter-clockwise, then
   * moved by x along the strip and y across it. Items are numbered by their `id`.
   */
  readonly placements: readonly StripPlacement[];
  /** With this seed and so many steps the search comes to the same layout again. */
  readonly seed: number;
  readonly steps: number;
}

export interface StripPlacement {
  readonly item: number;
  readonly x: number;
  readonly y: number;
  readonly turnDeg: number;
}

/** The JSON document of `lay JOB --json`. */
export interface LayResult {
  readonly sheets: readonly LaySheetResult[];
  /** Whole sheets that are not in stock. */
  readonly buy: readonly BuyResult[];
  /** Parts that could not be laid, or not be made. */
  readonly left: readonly LeftResult[];
  /** What the layouts are judged by, for each material and thickness. */
  readonly groups: readonly LayGroupResult[];
  /** What was found on the laid sheets, such as where a pierce has no room. */
  readonly findings: readonly FindingResult[];
  /** What was booked in the shop file; `null` where that was not asked for, or nothing was laid. */
  readonly taken: TakenStock | null;
}

/** One sheet or remnant with what is cut from it, and what that leaves. */
export interface LaySheetResult extends LaidSheetResult {
  /** Sizes of its box, the longer side of a whole sheet along x. */
  readonly widthMm: number;
  readonly heightMm: number;
  /** Metal of the parts in per cent of the metal of the sheet. */
  readonly usedPercent: number;
  /** The largest clean rectangle that is left; `null` where there is none. */
  readonly clean: CleanResult | null;
  /** Paths of its files, as far as they were written. */
  readonly files: readonly string[];
}

/** A rectangle on a sheet, mm. */
export interface CleanResult {
  readonly x: number;
  readonly y: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

export interface BuyResult {
  readonly stock: string;
  readonly material: string;
  readonly thicknessMm: number;
  readonly count: number;
  /** Price of all of them; `null` where the shop gives none. */
  readonly price: number | null;
}

export interface LeftResult {
  readonly name: string;
  readonly count: number;
  readonly reason: string;
}

export interface LayGroupResult {
  readonly material: string;
  readonly thicknessMm: number;
  /** Whole sheets, and remnants, that are cut from. */
  readonly sheets: number;
  readonly remnants: number;
  /** Whether it is sure that no fewer or cheaper whole sheets do. */
  readonly isLeast: boolean;
  /** With this seed and so many steps the search of one thread comes to the same layout again. */
  readonly seed: number;
  readonly steps: number;
}
