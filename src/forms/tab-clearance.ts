import { KERF_SHARE } from '../data/tolerances/cut.ts';
import { sheetTolerance } from '../data/tolerances/sheet.ts';
import type { CommonValues } from './common.ts';
import { wholeUp } from '../geometry/tolerance.ts';
import { figure } from '../text/figures.ts';

/** The narrowest slot is taken to be so many kerfs wide, as `data/cutting.ts` has it. */
const KERFS_A_SLOT = 2;
/** Clearances go up in such steps, mm: a kerf offset is set no finer. */
const CLEARANCE_STEP_MM = 0.05;

/** The sheet that tabs are cut from, and how narrow a slot its cutter cuts. */
export type Sheet = Pick<CommonValues, 'material' | 'thicknessMm' | 'leastSlotMm'>;

/** A clearance and where it comes from, in words that continue a sentence. */
export interface Clearance {
  readonly mm: number;
  readonly because: string;
}

/**
 * Clearance between a tooth and its slot, on every side, mm: half of what the sheet may be thicker
 * than ordered, and a tenth of the kerf, by which the two cut edges that face each other may
 * together be wider than drawn (half of the kerf's stray each), rounded up to 0.05 mm.
 */
export const usualClearance = ({ material, thicknessMm, leastSlotMm }: Sheet): Clearance => {
  const sheet = sheetTolerance(material, thicknessMm);
  const [, thickerMm] = sheet.value;
  const kerfMm = leastSlotMm / KERFS_A_SLOT;
  const steps = wholeUp((thickerMm / 2 + KERF_SHARE.value * kerfMm) / CLEARANCE_STEP_MM);
  return {
    mm: Math.round(steps * CLEARANCE_STEP_MM * 100) / 100,
    because: `half of what the sheet may be thicker (${sheet.source}) and a tenth of the kerf, which is taken as half of leastSlot (${KERF_SHARE.source})`,
  };
};

/** The same for slots inside a panel: it is more where one would be narrower than the cutter can cut. */
export const clearanceInSlots = (sheet: Sheet): Clearance => {
  const own = usualClearance(sheet);
  const slotMm = (sheet.leastSlotMm - sheet.thicknessMm) / 2;
  return own.mm >= slotMm
    ? own
    : {
        mm: slotMm,
        because: `the slots are as wide as leastSlot, ${figure(sheet.leastSlotMm)} mm, the narrowest that the cutter cuts`,
      };
};
