import { HEM_DEG, WIDEST_HEM } from '../../bending/hem.ts';
import type { FlatBend } from '../../model/flat.ts';
import type { Machine } from '../../model/machine.ts';
import type { Fold } from '../../model/part.ts';
import { givenRadius } from './given-radius.ts';

/**
 * Whether a bend is formed round a pipe, a bar or another former and is no stroke of the machine: it
 * hugs what it holds; it goes right over and is too wide for a hem, or is rolled with the middle of the sheet keeping its
 * length, as a strap is round a pipe; or it is far wider than the tool would make it. What the
 * shop's own strips gave is made as they were.
 */
export const isFormed = (
  fold: Pick<Fold, 'angleDeg' | 'insideRadiusMm' | 'rule' | 'midSurface' | 'rolled'>,
  bend: Pick<FlatBend, 'rule'> | undefined,
  thicknessMm: number,
  machine?: Machine,
): boolean => {
  const { angleDeg, insideRadiusMm, rule, midSurface, rolled } = fold;
  if (midSurface === true || angleDeg === 0) return false;
  if (rolled === true) return true;
  const isWide = insideRadiusMm > WIDEST_HEM * thicknessMm;
  if (angleDeg >= HEM_DEG) return isWide || (rule?.id === 'k' && rule.k === MID_SHEET_K);
  if (!isWide || machine === undefined || bend?.rule === 'measured') return false;
  return givenRadius(machine, thicknessMm, insideRadiusMm) !== undefined;
};

/** K of a bend whose middle of the sheet keeps its length, which is a roll. */
const MID_SHEET_K = 0.5;
