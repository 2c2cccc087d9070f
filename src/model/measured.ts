/** A length in mm or an angle in degrees. */
export interface Amount {
  readonly value: number;
  readonly unit: 'mm' | 'deg';
}

/** What an amount is to be: no less, no more, or between the two. */
export interface Limit {
  readonly atLeast?: number;
  readonly atMost?: number;
  readonly unit: Amount['unit'];
}

/** What was measured, and what it is to be. */
export interface Measured {
  readonly measured: Amount;
  readonly limit: Limit;
}

/** Too little of something. */
export const lacks = (value: number, atLeast: number, unit: Amount['unit'] = 'mm'): Measured => ({
  measured: { value, unit },
  limit: { atLeast, unit },
});

/** Too much of it. */
export const exceeds = (value: number, atMost: number, unit: Amount['unit'] = 'mm'): Measured => ({
  measured: { value, unit },
  limit: { atMost, unit },
});

/** Other than it is to be by more than may be. */
export const misses = (
  value: number,
  wanted: number,
  within: number,
  unit: Amount['unit'] = 'mm',
): Measured => ({
  measured: { value, unit },
  limit: { atLeast: wanted - within, atMost: wanted + within, unit },
});
