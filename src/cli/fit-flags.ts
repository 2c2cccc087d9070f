import { type Instrument, INSTRUMENTS } from '../data/tolerances/accuracy.ts';
import { GENERAL_CLASSES, type GeneralClass } from '../data/tolerances/general.ts';
import type { FitOptions } from '../use/fit/part-fit.ts';
import type { Flags, FlagSpecs } from './flags.ts';
import { choiceOf } from './make-flags.ts';

/** Flags that ask how well a part is likely to fit. */
export const FIT_FLAGS = {
  fit: {
    type: 'boolean',
    describe: 'Say how near each measure is likely to come, and whether bolts go in',
  },
  'measured-with': {
    type: 'string',
    describe:
      'With --fit: what lengths were measured with that say no +- of their own: tape, rule or calliper; taken as given when left out',
  },
  tolerance: {
    type: 'string',
    describe: 'With --fit: the class of ISO 2768-1 to keep to: f, m, c or v',
  },
} as const satisfies FlagSpecs;

/**
 * What is asked of the fit; `undefined` when nothing is. Either of the other flags asks for it too.
 */
export const fitAsked = (flags: Flags): FitOptions | undefined => {
  const measuredWith = choiceOf<Instrument>(flags, 'measured-with', INSTRUMENTS);
  const tolerance = choiceOf<GeneralClass>(flags, 'tolerance', GENERAL_CLASSES);
  return flags['fit'] === true || measuredWith !== undefined || tolerance !== undefined
    ? { measuredWith, tolerance }
    : undefined;
};
