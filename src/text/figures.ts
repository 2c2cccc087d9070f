/**
 * Figures as messages and notes on drawings show them: at most `decimals` places, no zeros at the
 * end, no exponent. What a message recommends is rounded so that the rounded figure passes too:
 * `atMost` down, `atLeast` up.
 */
export const figure = (value: number, decimals = 2): string => tidy(value.toFixed(decimals));

/** The largest shown figure that is not above `value`. */
export const atMost = (value: number, decimals = 2): string =>
  figure(step(value, decimals, Math.floor, NOISE_STEPS), decimals);

/** The smallest shown figure that is not below `value`. */
export const atLeast = (value: number, decimals = 2): string =>
  figure(step(value, decimals, Math.ceil, -NOISE_STEPS), decimals);

/**
 * Whether a value is under a limit, or over it, by more than the rounding of these figures allows
 * for. A figure that they recommend never is.
 */
export const isUnder = (value: number, least: number): boolean => value < least - 2 * NOISE_STEPS;
export const isOver = (value: number, most: number): boolean => value > most + 2 * NOISE_STEPS;

/**
 * Keeps the noise of the arithmetic from costing a whole step: 6 stays 6 when it was computed as
 * 5.9999999999.
 */
const NOISE_STEPS = 1e-9;

function step(
  value: number,
  decimals: number,
  round: (n: number) => number,
  slack: number,
): number {
  const unit = 10 ** decimals;
  return round((value + slack) * unit) / unit;
}

function tidy(fixed: string): string {
  const short = fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed;
  return short === '-0' ? '0' : short;
}
