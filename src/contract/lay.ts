import type { StockPiece } from '../model/stock.ts';

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
  readonly sheets: readonly LaidSheetResult[];
  /** Whole sheets that are not in stock. */
  readonly buy: readonly BuyResult[];
  /** Parts that could not be laid, or not be made. */
  readonly left: readonly LeftResult[];
  /** What the layouts are judged by, for each material and thickness. */
  readonly groups: readonly LayGroupResult[];
}

/** One sheet or remnant with what is cut from it. */
export interface LaidSheetResult {
  /** Its name among the sheets that are laid, by which its files are called. */
  readonly name: string;
  /** Name of the piece of stock. */
  readonly stock: string;
  readonly isRemnant: boolean;
  readonly material: string;
  readonly thicknessMm: number;
  /** Sizes of its box, the longer side of a whole sheet along x. */
  readonly widthMm: number;
  readonly heightMm: number;
  /** Metal of the parts in per cent of the metal of the sheet. */
  readonly usedPercent: number;
  /** The largest clean rectangle that is left; `null` where there is none. */
  readonly cleanMm: {
    readonly x: number;
    readonly y: number;
    readonly widthMm: number;
    readonly heightMm: number;
  } | null;
  readonly gapMm: number;
  readonly edgeMm: number;
  /**
   * Where parts lie: the drawing of each is turned over first where `turnedOver` says so (x becomes
   * -x), then turned counter-clockwise about its own 0,0, then moved by x, y.
   */
  readonly parts: readonly LaidPartResult[];
  /** Names of its files, as far as they were written. */
  readonly files: readonly string[];
  /** The piece of stock with its outline and holes, lines and arcs. */
  readonly piece: StockPiece;
}

export interface LaidPartResult {
  readonly name: string;
  /** Which of the parts of this name it is, from 1. */
  readonly copy: number;
  readonly x: number;
  readonly y: number;
  readonly turnDeg: number;
  readonly turnedOver: boolean;
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
