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
