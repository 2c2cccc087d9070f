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
 * An edge folded right over: `closed`, pressed flat on itself; `open`, parallel with a gap of twice
 * its inside radius; `teardrop`, with a loop of that radius, its edge pressed down on the sheet.
 */
export type HemForm = 'closed' | 'open' | 'teardrop';

/**
 * One line of a shop's own bend table: what its bends in one sheet with one tool were found to
 * have. K and radius were found together, and hold together: neither goes with another's other
 * half.
 */
export interface MeasuredBend {
  readonly machine: string;
  readonly tool: string;
  readonly thicknessMm: number;
  readonly insideRadiusMm: number;
  readonly kFactor: number;
  /** One standard deviation each, and how the two errors go together, -1 to 1. */
  readonly kError: number;
  readonly radiusErrorMm: number;
  readonly correlation: number;
  /** What one bend differs from the next in its deduction, one standard deviation, mm. */
  readonly spreadMm: number;
  /** The least and the greatest bend angle that was measured. */
  readonly anglesDeg: readonly [number, number];
  /** A hem of this form, and no other bend. */
  readonly hem?: HemForm | undefined;
  /** Of the tool's nose, where it was noted. */
  readonly noseRadiusMm?: number | undefined;
  /** Bend angle that stayed over the angle at the stop, where that was measured. */
  readonly springback?: number | undefined;
}
