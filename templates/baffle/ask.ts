import type { BaffleSet } from './inputs.ts';
import type { BaffleAsk } from './plate.ts';

/**
 * What is said of a baffle's flanges and openings, as inputs: the same words in every family that
 * has baffles.
 */
export type BaffleWords = Pick<
  BaffleSet,
  | 'flange'
  | 'clearance'
  | 'limber'
  | 'vent'
  | 'holeDiameter'
  | 'openPercent'
  | 'holeCount'
  | 'holeGap'
>;

/** The same as a baffle is asked for; a number of holes goes before a share of open area. */
export const wordsOf = (
  v: BaffleWords,
): Pick<BaffleAsk, 'flangeMm' | 'clearanceMm' | 'limberMm' | 'ventMm' | 'flow' | 'holeGapMm'> => ({
  flangeMm: v.flange,
  clearanceMm: v.clearance,
  limberMm: v.limber,
  ventMm: v.vent,
  flow:
    v.holeCount > 0
      ? { diameterMm: v.holeDiameter, count: v.holeCount }
      : { diameterMm: v.holeDiameter, openPercent: v.openPercent },
  holeGapMm: v.holeGap,
});
