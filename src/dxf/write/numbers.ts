const BULGE_STEPS = 1e12;

/**
 * A bulge rounded to twelve decimals, which moves the middle of an arc over a chord of 100 m by
 * less than 0.0001 mm.
 */
export const fileBulge = (value: number): number => {
  if (!Number.isFinite(value))
    throw new RangeError(`a bulge of ${value} cannot be written to a drawing file`);
  return Math.round(value * BULGE_STEPS) / BULGE_STEPS + 0;
};

/** The text of a number with at most twelve decimals, never with an exponent. */
export const plainText = (value: number): string => {
  const text = String(value);
  return text.includes('e') ? value.toFixed(12) : text;
};
