/**
 * How the length of a bend in the flat is found. `k` carries a given K factor (neutral line's
 * distance from the inside face over the thickness). `measured` is the shop's own table.
 */
export type BendRule =
  | { readonly id: 'din6935' }
  | { readonly id: 'faa' }
  | { readonly id: 'mh1' }
  | { readonly id: 'mh2' }
  | { readonly id: 'mh3' }
  | { readonly id: 'k'; readonly k: number }
  | { readonly id: 'measured'; readonly rows: readonly MeasuredBend[] };

/**
 * An edge folded right over. `closed` is pressed flat on itself; `open` is parallel, with a gap of
 * twice its inside radius; `teardrop` has a loop of that radius and its edge pressed down on the
 * sheet.
 */
export type HemForm = 'closed' | 'open' | 'teardrop';

/**
 * One line of a shop's own bend table: what its bends in one sheet with one tool were found to
 * have. K and radius were found together and belong together: neither may be paired with the other
 * value of another line.
 */
export interface MeasuredBend {
  readonly machine: string;
  readonly tool: string;
  readonly thicknessMm: number;
  readonly insideRadiusMm: number;
  readonly kFactor: number;
  /** One standard deviation each, and the correlation of the two errors, -1 to 1. */
  readonly kError: number;
  readonly radiusErrorMm: number;
  readonly correlation: number;
  /** Scatter of the deduction from one bend to the next, one standard deviation, mm. */
  readonly spreadMm: number;
  /** Smallest and greatest bend angle that was measured. */
  readonly anglesDeg: readonly [number, number];
  /** The line holds for a hem of this form and for no other bend. */
  readonly hem?: HemForm | undefined;
  /** Radius of the tool's nose, where it was noted. */
  readonly noseRadiusMm?: number | undefined;
  /** Ratio of the bend angle that stayed to the angle at the stop, where that was measured. */
  readonly springback?: number | undefined;
}

/** The rule of what keeps its length on the middle of the sheet: rolled walls, and lines on which facets meet. */
export const MIDDLE_OF_SHEET = { id: 'k', k: 0.5 } as const satisfies BendRule;
