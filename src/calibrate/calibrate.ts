import type { ShopBend } from '../model/shop.ts';
import { type BendFit, fitBends } from './fit.ts';
import type { MeasuredStrip } from './strip.ts';

/** Strips of one sheet, folded with one tool, and what they say; without `fit` when they do not say it. */
export interface Calibrated {
  readonly material: string;
  readonly thicknessMm: number;
  readonly machine: string;
  readonly tool: string;
  readonly strips: number;
  readonly fit?: BendFit;
}

/** Sheet of the same nominal thickness is measured a little differently from strip to strip, mm. */
const SAME_SHEET_MM = 0.1;

/** Parts the strips by sheet and tool, and fits each lot on its own. */
export function calibrate(strips: readonly MeasuredStrip[]): Calibrated[] {
  const lots: MeasuredStrip[][] = [];
  for (const strip of strips) {
    const lot = lots.find(([first]) => first !== undefined && isSameLot(first, strip));
    if (lot === undefined) lots.push([strip]);
    else lot.push(strip);
  }
  return lots.map((lot): Calibrated => {
    const { material, machine, tool } = lot[0] as MeasuredStrip;
    const thicknessMm = lot.reduce((sum, s) => sum + s.thicknessMm, 0) / lot.length;
    const fit = fitBends(lot);
    return { material, machine, tool, thicknessMm, strips: lot.length, ...(fit !== undefined && { fit }) };
  });
}

const isSameLot = (a: MeasuredStrip, b: MeasuredStrip): boolean =>
  a.material === b.material && a.machine === b.machine && a.tool === b.tool && Math.abs(a.thicknessMm - b.thicknessMm) <= SAME_SHEET_MM;

/** As it stands in the shop file; `undefined` where the strips do not say it. A radius below nothing is none. */
export const toShopBend = ({ material, machine, tool, thicknessMm, fit }: Calibrated): ShopBend | undefined =>
  fit && {
    material,
    machine,
    tool,
    thickness: rounded(thicknessMm, 3),
    radius: rounded(Math.max(0, fit.insideRadiusMm.value), 3),
    k: rounded(Math.min(1, Math.max(0, fit.kFactor.value)), 4),
    kError: rounded(Math.min(1, fit.kFactor.standardError), 4),
    radiusError: rounded(fit.insideRadiusMm.standardError, 3),
    ...(fit.springback !== undefined && { springback: rounded(fit.springback.value, 4) }),
    strips: fit.used,
    angles: { from: fit.anglesDeg[0], to: fit.anglesDeg[1] },
  };

const rounded = (value: number, decimals: number): number => Number(value.toFixed(decimals));

/** The bends of a shop with new ones in place of those of the same sheet and tool. */
export const withBends = (known: readonly ShopBend[], fresh: readonly ShopBend[]): readonly ShopBend[] => [
  ...known.filter((k) => !fresh.some((f) => k.material === f.material && k.machine === f.machine && k.tool === f.tool && Math.abs(k.thickness - f.thickness) <= SAME_SHEET_MM)),
  ...fresh,
];
