import type { Strap } from './inputs.ts';

/** Distance between the inside faces of the two sides. */
export const insideMm = (v: Strap): number => v.across + 2 * v.rubber;

/**
 * Distance from the inside face of a side, which is the mould line of its foot, to the centre of
 * the bolt.
 */
export const boltFromSideMm = (v: Strap): number => (v.boltCentres - insideMm(v)) / 2;
