/** Texts that rules of several families have in common. */

export const ALL_BEND = 'Nothing of it lies flat.';
export const SETBACK = 'its length against what its bends take';
export const BOATS = 'ISO 21487 (fuel tanks of small craft, after a summary of it)';
