/**
 * A reading further off than this many standard deviations of a normal distribution, which one in a
 * thousand is, counts as wrong.
 */
export const ONE_IN_THOUSAND = 3.29;

/** Half of all readings lie within this many standard deviations. */
const HALF_LIES_WITHIN = 0.6745;

/**
 * The middle one of some values, the upper of the two where their number is even. A few wild values
 * do not move it.
 */
export const middleOf = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] as number;

/**
 * One standard deviation, estimated from the middle one of the distances, for values of which
 * hardly any are wild.
 */
export const scatterOf = (distances: readonly number[]): number =>
  middleOf(distances) / HALF_LIES_WITHIN;
