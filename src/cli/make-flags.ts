import { WAY, type Way } from '../forms/making.ts';
import type { Flags } from './flags.ts';
import { saidIn, specsOf } from './option-flags.ts';

/** Flags that say how a part is made: of `make`. */
export const WAY_FLAGS = specsOf(WAY);

/**
 * How a part is to be made, out of its flags. Throws `WrongInput` for one that says something else.
 */
export const wayOf = (flags: Flags): Way => saidIn(WAY, flags);
