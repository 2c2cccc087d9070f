import { stopAtDeg } from '../../bending/springback.ts';
import { calibrate, toShopBend } from '../../calibrate/calibrate.ts';
import { readStrips } from '../../calibrate/read.ts';
import type { Calibrated, CalibrateResult } from '../../contract/calibration.ts';
import type { ShopBend } from '../../model/shop.ts';
import type { Done, Refused } from '../use-case.ts';

export interface CalibratedStrips extends Done<CalibrateResult> {
  /** What was found, as it stands in a shop file: see `shopWithBends`. */
  readonly measured: readonly ShopBend[];
}

/**
 * K and inside radius out of the text of measured strips, with how far off they may be. Strips that
 * do not say it have a finding that says why. Never throws.
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
