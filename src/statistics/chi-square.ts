/** The 99 % point of the normal distribution, one-sided. */
const NORMAL99 = 2.326348;

/**
 * The value that the sum of the squares of that many standard deviates stays under 99 times in 100:
 * n (1 - 2/(9n) + z sqrt(2/(9n)))^3, good to 1 % from two degrees of freedom on (Wilson and
 * Hilferty 1931; Abramowitz and Stegun 26.4.17). One degree of freedom is the square of a single
 * deviate.
 */
export const chiSquare99 = (degreesOfFreedom: number): number => {
  if (degreesOfFreedom === 1) return 2.575829 ** 2;
  const part = 2 / (9 * degreesOfFreedom);
  return degreesOfFreedom * (1 - part + NORMAL99 * Math.sqrt(part)) ** 3;
};
