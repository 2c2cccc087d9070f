import { FILE_STEP_MM } from '../geometry/tolerance.ts';

/** Rounding of the figures in drawing files, whatever their format. */

const STEPS_PER_MM = Math.round(1 / FILE_STEP_MM);

/**
 * No drawing of ours reaches beyond this, mm, and a number beyond it loses the digits of the file's
 * step.
 */
const FARTHEST_MM = 1e9;

/**
 * A length rounded to the step of the file, in mm. Its text has at most four decimals, no exponent
 * and no negative zero. Throws when the number is not finite or absurdly large, which only a bug of
 * ours can cause.
 */
export const fileNumber = (value: number): number => {
  if (!(Math.abs(value) < FARTHEST_MM))
    throw new RangeError(`${value} cannot be written to a drawing file`);
  return Math.round(value * STEPS_PER_MM) / STEPS_PER_MM + 0;
};

/** An angle in degrees from 0 up to but not including 360, four decimals. */
export const fileAngle = (degrees: number): number => {
  const rounded = fileNumber(degrees - 360 * Math.floor(degrees / 360));
  return rounded === 360 ? 0 : rounded;
};
