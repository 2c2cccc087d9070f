/** All blanks of one material and thickness. */
export interface CutGroup {
  readonly material: string;
  readonly thicknessMm: number;
  readonly rows: readonly CutRow[];
  readonly total: Totals;
  /** The cutter of the shop that takes the sheet; `null` where none does. */
  readonly cutter: string | null;
  /** Time for cutting and piercing all blanks; `null` where the shop gives no figures. */
  readonly minutes: number | null;
  /** Price of the cutter's time, in the shop's own currency; `null` where that is not known. */
  readonly cuttingCost: number | null;
  /** `null` where the shop has no sheet for it. */
  readonly sheets: SheetEstimate | null;
  /** Names of blanks that fit on no sheet in stock, whichever way they are turned. */
  readonly tooLarge: readonly string[];
  /**
   * Blanks that do not fit on the sheet of the estimate and are not counted in it, but fit on
   * another in stock.
   */
  readonly otherSheets: readonly OtherSheet[];
  /** The sheets that the blanks are laid on; `null` where no layout was given. */
  readonly laid: LaidOn | null;
}

/** What the blanks of one material and thickness are laid on. */
export interface LaidOn {
  readonly sheets: readonly LaidOnSheet[];
  /**
   * Price of the whole sheets, a remnant without a price counting nothing; `null` where one of them
   * has no price.
   */
  readonly cost: number | null;
  /** Blanks that lie on none of the sheets. */
  readonly notLaid: readonly { readonly name: string; readonly count: number }[];
}

export interface LaidOnSheet {
  /** Name of the sheet among all that are laid. */
  readonly name: string;
  /** Name of the piece of stock. */
  readonly stock: string;
  readonly isRemnant: boolean;
  /** How many blanks lie on it, and how much of it they are, holes left out. */
  readonly blanks: number;
  readonly usedPercent: number;
}

export interface CutRow {
  readonly name: string;
  readonly family: string;
  readonly hand: 'left' | 'right';
  readonly quantity: number;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Area of one blank. */
  readonly areaMm2: number;
  readonly massKg: number;
  readonly cutLengthMm: number;
  readonly pierces: number;
  readonly folds: number;
  /** Time for one blank; `null` where the shop gives no figures. */
  readonly minutes: number | null;
}

export interface Totals {
  readonly quantity: number;
  readonly areaMm2: number;
  readonly massKg: number;
  readonly cutLengthMm: number;
  readonly pierces: number;
  readonly folds: number;
}

/**
 * Estimate on the first sheet in stock that takes every blank which fits on any sheet; where there
 * is none, on the one that takes most.
 */
export interface SheetEstimate {
  readonly lengthMm: number;
  readonly widthMm: number;
  /**
   * Least number of sheets: no fewer can hold the blanks, however they are laid out. The blanks are
   * not laid out here, so more may be needed.
   */
  readonly count: number;
  /** Price of the sheets; `null` where the shop gives no price. */
  readonly cost: number | null;
}

export interface OtherSheet {
  readonly name: string;
  readonly lengthMm: number;
  readonly widthMm: number;
}

/** All tubes of one grade, diameter and wall, laid on bars. */
export interface TubeGroup {
  readonly material: string;
  readonly diameterMm: number;
  readonly wallMm: number;
  readonly rows: readonly TubeRow[];
  /** Together, without the saw's cuts. */
  readonly lengthMm: number;
  readonly massKg: number;
  readonly sawKerfMm: number;
  readonly bars: readonly TubeBar[];
  /** Names of tubes that are longer than any bar. */
  readonly tooLong: readonly string[];
  /** Whether no plan takes less length of bars. */
  readonly isBest: boolean;
}

export interface TubeRow {
  readonly name: string;
  readonly family: string;
  readonly hand: 'left' | 'right';
  readonly quantity: number;
  /** Length that is cut off the bar, of one. */
  readonly lengthMm: number;
  /** Mass of so much tube. */
  readonly massKg: number;
}

/** A bar and what is cut off it, from its end, in this order. */
export interface TubeBar {
  readonly barMm: number;
  readonly cuts: readonly { readonly name: string; readonly lengthMm: number }[];
  readonly leftMm: number;
}

/** The JSON document of `cutlist --json`. */
export interface CutListResult {
  readonly job: string;
  readonly groups: readonly CutGroup[];
  /** Tubes; absent where the job has none. */
  readonly tubes?: readonly TubeGroup[];
  /** Parts that cannot be made and are therefore left out of the list. */
  readonly left: readonly string[];
}
