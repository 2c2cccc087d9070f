/**
 * How the length of a bend in the flat is found. `k` carries a given K factor (neutral line's distance from the
 * inside face over the thickness). `measured` is the shop's own table.
 */
export type BendRule =
  | { readonly id: 'din6935' }
  | { readonly id: 'faa' }
  | { readonly id: 'mh1' }
  | { readonly id: 'mh2' }
  | { readonly id: 'mh3' }
  | { readonly id: 'k'; readonly k: number }
  | { readonly id: 'measured'; readonly rows: readonly MeasuredBend[] };

/** One line of a shop's own bend table: what its bends in one sheet with one tool were found to have. */
export interface MeasuredBend {
  readonly thicknessMm: number;
  readonly insideRadiusMm: number;
  readonly kFactor: number;
  /** The least and the greatest bend angle that was measured. */
  readonly anglesDeg: readonly [number, number];
  /** Bend angle that stayed over the angle at the stop, where that was measured. */
  readonly springback?: number | undefined;
}
