import { WAY, type Way } from '../forms/making.ts';
import type { Flags } from './flags.ts';
import { saidIn, specsOf } from './option-flags.ts';

/** Flags of `make` that say how a part is made. */
export const WAY_FLAGS = specsOf(WAY);

/**
 * How a part is to be made, read from its flags. Throws `WrongInput` for a value that is not
 * allowed.
 */
export const wayOf = (flags: Flags): Way => saidIn(WAY, flags);
