import { stopAtDeg } from '../../bending/springback.ts';
import { calibrate, toShopBend } from '../../calibrate/calibrate.ts';
import { readStrips } from '../../calibrate/read.ts';
import type { Calibrated, CalibrateResult } from '../../contract/calibration.ts';
import type { ShopBend } from '../../model/shop.ts';
import type { Done, Refused } from '../use-case.ts';

export interface CalibratedStrips extends Done<CalibrateResult> {
  /** Measured bends in the form of the shop file: see `shopWithBends`. */
  readonly measured: readonly ShopBend[];
}

/**
 * K and inside radius from the text of measured strips, with their uncertainty. Strips that are not
 * enough for a fit have a finding that says why. It never throws.
 */
export function calibrateStrips(text: string, form: 'csv' | 'yaml'): Refused | CalibratedStrips {
  const read = readStrips(text, form);
  if (!read.ok) return read;
  const lots = calibrate(read.strips);
  return {
    ok: true,
    result: {
      bends: lots.map((lot) => ({ ...lot, stopFor90Deg: stopFor90(lot) ?? null })),
      saved: null,
    },
    findings: lots.flatMap(({ findings }) => findings),
    files: [],
    measured: lots.flatMap((lot) => toShopBend(lot) ?? []),
  };
}

const stopFor90 = ({ fit }: Calibrated): number | undefined =>
  fit?.springback && stopAtDeg(90, { factor: fit.springback.value });
