/**
 * Two-sided 95 % points of Student's t for 1 to 30 degrees of freedom (any table of the
 * distribution, such as NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.6.7.2; from
 * memory).
 */
const T95 = [
  12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.16, 2.145,
  2.131, 2.12, 2.11, 2.101, 2.093, 2.086, 2.08, 2.074, 2.069, 2.064, 2.06, 2.056, 2.052, 2.048,
  2.045, 2.042,
] as const;

/** The two-sided 95 % point of the normal distribution. */
export const NORMAL95 = 1.959964;

/**
 * The number of standard errors to either side that hold the truth 95 times in 100, when the error
 * was estimated with this many degrees of freedom. Beyond the table it is z + (z^3 + z) / (4 n),
 * the first terms of the expansion in 1/n (Abramowitz and Stegun 26.7.5).
 */
export const student95 = (degreesOfFreedom: number): number =>
  T95[degreesOfFreedom - 1] ?? NORMAL95 + (NORMAL95 ** 3 + NORMAL95) / (4 * degreesOfFreedom);
