/** A length in mm or an angle in degrees. */
export interface Amount {
  readonly value: number;
  readonly unit: 'mm' | 'deg';
}

/** The limit that an amount should keep: a least value, a greatest value, or both. */
export interface Limit {
  readonly atLeast?: number;
  readonly atMost?: number;
  readonly unit: Amount['unit'];
}

/** What was measured, and the limit that it should keep. */
export interface Measured {
  readonly measured: Amount;
  readonly limit: Limit;
}

/** Too little of something. */
export const lacks = (value: number, atLeast: number, unit: Amount['unit'] = 'mm'): Measured => ({
  measured: { value, unit },
  limit: { atLeast, unit },
});

/** Too much of something. */
export const exceeds = (value: number, atMost: number, unit: Amount['unit'] = 'mm'): Measured => ({
  measured: { value, unit },
  limit: { atMost, unit },
});

/** A value that differs from what it should be by more than is allowed. */
export const misses = (
  value: number,
  wanted: number,
  within: number,
  unit: Amount['unit'] = 'mm',
): Measured => ({
  measured: { value, unit },
  limit: { atLeast: wanted - within, atMost: wanted + within, unit },
});
