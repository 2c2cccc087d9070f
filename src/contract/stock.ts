/** What `lay --take` booked. */
export interface TakenStock {
  /** Identity of what was cut. */
  readonly layout: string;
  /** The shop file, and the record beside it, by which it can be taken back. */
  readonly shop: string;
  readonly record: string;
  readonly used: readonly UsedStock[];
  readonly added: readonly AddedRemnant[];
}

/** Pieces of stock of one name that were cut. */
export interface UsedStock {
  readonly stock: string;
  readonly isRemnant: boolean;
  readonly count: number;
  /** How many are there still; `null` where nobody counts them. */
  readonly left: number | null;
  /** How many of them were not in the file, and so were bought. */
  readonly bought: number;
}

/** A remnant that was put into the shop file. */
export interface AddedRemnant {
  /** To be chalked on it. */
  readonly name: string;
  readonly material: string;
  readonly thicknessMm: number;
  /** The piece of stock that it is from. */
  readonly from: string;
  /** The sheet of the layout that it was cut from. */
  readonly sheet: string;
  readonly lengthMm: number;
  readonly widthMm: number;
  /** `null` where it is a rectangle. */
  readonly outline: string | null;
  /**
   * Where its lower left corner is on the sheet, as that was laid out; a rectangle may stand
   * upright there.
   */
  readonly xMm: number;
  readonly yMm: number;
}

/** What `lay --take-back` undid. */
export interface TakenBack {
  readonly layout: string;
  readonly shop: string;
  readonly record: string;
  /** Stock that is there again, and remnants that are gone again, by name. */
  readonly used: readonly UsedStock[];
  readonly removed: readonly string[];
}
