import type { BaffleSet } from './inputs.ts';
import type { BaffleAsk } from './plate.ts';

/**
 * The inputs for a baffle's flanges and openings; every family that has baffles uses the same
 * words.
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

/**
 * The same inputs as a baffle's request; a number of holes has precedence over a share of open
 * area.
 */
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
