/** Everything of one material and thickness. */
export interface CutGroup {
  readonly material: string;
  readonly thicknessMm: number;
  readonly rows: readonly CutRow[];
  readonly total: Totals;
  /** The cutter of the shop that takes the sheet; `null` where none does. */
  readonly cutter: string | null;
  /** Cutting and piercing, of all blanks; `null` where the shop gives no figures. */
  readonly minutes: number | null;
  /** Of the cutter's time, in the shop's own currency; `null` where that is not known. */
  readonly cuttingCost: number | null;
  /** `null` where the shop has no sheet for it. */
  readonly sheets: SheetEstimate | null;
  /** Names of blanks that go on no sheet in stock, in whatever turn. */
  readonly tooLarge: readonly string[];
  /**
   * Blanks that do not go on the sheet of the estimate, and are not in it, but go on another in
   * stock.
   */
  readonly otherSheets: readonly OtherSheet[];
}

export interface CutRow {
  readonly name: string;
  readonly family: string;
  readonly hand: 'left' | 'right';
  readonly quantity: number;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Of one blank. */
  readonly areaMm2: number;
  readonly massKg: number;
  readonly cutLengthMm: number;
  readonly pierces: number;
  readonly folds: number;
  /** Of one blank; `null` where the shop gives no figures. */
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
 * The first sheet in stock on which all blanks go that go on any; where there is none, the one on
 * which most do.
 */
export interface SheetEstimate {
  readonly lengthMm: number;
  readonly widthMm: number;
  /**
   * No fewer hold the blanks, however they are laid out: more may be needed, since they are not.
   */
  readonly count: number;
  /** `null` where the shop gives no price. */
  readonly cost: number | null;
}

export interface OtherSheet {
  readonly name: string;
  readonly lengthMm: number;
  readonly widthMm: number;
}

/** The JSON document of `cutlist --json`. */
export interface CutListResult {
  readonly job: string;
  readonly groups: readonly CutGroup[];
  /** Parts that cannot be made, and so are not in the list. */
  readonly left: readonly string[];
}
