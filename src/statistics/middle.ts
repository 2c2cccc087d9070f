/**
 * What is further off than one reading in a thousand is wrong: so many standard deviations of a
 * normal distribution.
 */
export const ONE_IN_THOUSAND = 3.29;

/** Half of all readings lie within so many standard deviations. */
const HALF_LIES_WITHIN = 0.6745;

/** The middle one of some values, of an even number the upper: a few wild ones do not move it. */
export const middleOf = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] as number;

/**
 * One standard deviation by the middle one of the distances, for values that hardly any are wild
 * among.
 */
export const scatterOf = (distances: readonly number[]): number =>
  middleOf(distances) / HALF_LIES_WITHIN;
