import type { Sourced } from '../../model/material.ts';

/**
 * A figure of a machine class for which no data sheet was found: a real job needs the figure of the
 * machine in the shop.
 */
export const illustrative = <T>(value: T, how = 'measure your own machine'): Sourced<T> => ({
  value,
  basis: 'from memory',
  source: `illustrative; ${how}`,
});

/** A figure that the planner keeps to where no source gives one. */
export const setting = <T>(value: T, why: string): Sourced<T> => ({
  value,
  basis: 'common practice',
  source: `setting of the planner: ${why}`,
});

export const CLASS_SIZES =
  'dealer category text: usual shop machines (10 ft straight brake 16 ga; 4 ft box-and-pan 16 ga)';
export const LESSON =
  'cornice brake lesson page: capacities 12-22 ga, lengths 3-12 ft, 93 degrees stop for a 90 degree bend';
export const BED = 'how-to page: bed 12 to 24 in deep (low authority)';
export const LIMITS = 'bending limit dimensions, trade pages';
