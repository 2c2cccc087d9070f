import type { FoldingAccuracy } from './accuracy.ts';
import { type GeneralClass, generalTolerance } from './general.ts';

/**
 * How far a length, mm, or an angle, degrees, of a finished part may be off, either way: the
 * general tolerance of a class of ISO 2768-1, but what depends on a fold never less than the fold
 * can be made to (`folding`; absent for what is only cut). `sizeMm` is the length itself, or the
 * shorter leg of the angle. `null` where neither has a figure.
 */
export const allowedOff = (
  of: 'length' | 'angle',
  sizeMm: number,
  grade: GeneralClass,
  folding?: FoldingAccuracy,
): number | null => {
  const general = generalTolerance(of, sizeMm, grade);
  const held = folding === undefined ? 0 : folding[of === 'angle' ? 'angleDeg' : 'landsMm'].value;
  return general === null ? (held === 0 ? null : held) : Math.max(general, held);
};

/** How many decimals a figure needs beside what it may be off: none that mean nothing. */
export const decimalsBeside = (off: number | null): 1 | 2 => (off !== null && off >= 0.1 ? 1 : 2);
