import { FIT } from '../forms/making.ts';
import type { FitOptions } from '../use/fit/part-fit.ts';
import type { Flags } from './flags.ts';
import { saidIn, specsOf } from './option-flags.ts';

/** Flags that ask how well a part is likely to fit. */
export const FIT_FLAGS = specsOf(FIT);

/**
 * Options for the fit; `undefined` when it is not asked for. Either of the other flags asks for it
 * too.
 */
export const fitAsked = (flags: Flags): FitOptions | undefined => {
  const { fit, measuredWith, tolerance } = saidIn(FIT, flags);
  return fit === true || measuredWith !== undefined || tolerance !== undefined
    ? { measuredWith, tolerance }
    : undefined;
};
