import type { ShopBend } from '../model/shop.ts';
import { fitBends, isFit } from './fit.ts';
import { fitHems } from './hems.ts';
import { fitRemarks, noFitRemark } from './remarks.ts';
import type { MeasuredStrip } from './strip.ts';
import type { Calibrated } from '../contract/calibration.ts';

/** Readings of sheet of the same nominal thickness differ by up to this from strip to strip, mm. */
const SAME_SHEET_MM = 0.1;

/** Readings of the gaps of equal hems, which give their radius, differ by up to this, mm. */
const SAME_GAP_MM = 0.25;

/** Sorts the strips by sheet and tool, and fits each lot on its own. */
export function calibrate(strips: readonly MeasuredStrip[]): Calibrated[] {
  const lots: MeasuredStrip[][] = [];
  for (const strip of strips) {
    const lot = lots.find(([first]) => first !== undefined && isSameLot(first, strip));
    if (lot === undefined) lots.push([strip]);
    else lot.push(strip);
  }
  return lots.map((lot): Calibrated => {
    const { material, machine, tool, noseRadiusMm, hem } = lot[0] as MeasuredStrip;
    const thicknessMm = lot.reduce((sum, s) => sum + s.thicknessMm, 0) / lot.length;
    const found = hem === undefined ? fitBends(lot) : fitHems(lot);
    const head = {
      material,
      machine,
      tool,
      thicknessMm,
      strips: lot.length,
      ...(noseRadiusMm !== undefined && { noseRadiusMm }),
      ...(hem !== undefined && { hem }),
    };
    return isFit(found)
      ? { ...head, fit: found, findings: fitRemarks(found, lot) }
      : { ...head, findings: [noFitRemark(found, hem)] };
  });
}

const isSameLot = (a: MeasuredStrip, b: MeasuredStrip): boolean =>
  a.material === b.material &&
  a.machine === b.machine &&
  a.tool === b.tool &&
  a.hem === b.hem &&
  Math.abs(a.thicknessMm - b.thicknessMm) <= SAME_SHEET_MM &&
  (a.hem === undefined ||
    Math.abs((a.insideRadiusMm ?? 0) - (b.insideRadiusMm ?? 0)) <= SAME_GAP_MM);

/**
 * The bends as an entry of the shop file; `undefined` where the strips are not enough for one. A
 * radius below 0 is written as 0.
 */
export const toShopBend = ({
  material,
  machine,
  tool,
  noseRadiusMm,
  hem,
  thicknessMm,
  fit,
}: Calibrated): ShopBend | undefined =>
  fit && {
    material,
    machine,
    tool,
    ...(noseRadiusMm !== undefined && { noseRadius: noseRadiusMm }),
    ...(hem !== undefined && { hem }),
    thickness: rounded(thicknessMm, 3),
    radius: rounded(Math.max(0, fit.insideRadiusMm.value), 3),
    k: rounded(fit.kFactor.value, 4),
    kError: rounded(Math.min(1, fit.kFactor.standardError), 4),
    radiusError: rounded(fit.insideRadiusMm.standardError, 3),
    correlation: rounded(fit.correlation, 4),
    spread: rounded(fit.spreadMm, 3),
    ...(fit.springback !== undefined && { springback: rounded(fit.springback.value, 4) }),
    strips: fit.used,
    angles: { from: fit.anglesDeg[0], to: fit.anglesDeg[1] },
    deductions: fit.deductions.map(({ angleDeg, deductionMm, strips }) => ({
      angle: rounded(angleDeg, 1),
      deduction: rounded(deductionMm, 3),
      strips,
    })),
  };

const rounded = (value: number, decimals: number): number => Number(value.toFixed(decimals));

/** The bends of a shop, with new ones in place of those of the same sheet and tool. */
export const withBends = (
  known: readonly ShopBend[],
  fresh: readonly ShopBend[],
): readonly ShopBend[] => [...known.filter((k) => !fresh.some((f) => isSameBend(k, f))), ...fresh];

const isSameBend = (a: ShopBend, b: ShopBend): boolean =>
  a.material === b.material &&
  a.machine === b.machine &&
  a.tool === b.tool &&
  a.hem === b.hem &&
  Math.abs(a.thickness - b.thickness) <= SAME_SHEET_MM &&
  (a.hem === undefined || Math.abs(a.radius - b.radius) <= SAME_GAP_MM);
