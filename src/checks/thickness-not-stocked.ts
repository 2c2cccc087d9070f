import { figure } from '../text/figures.ts';
import { note } from '../model/finding.ts';
import type { Check } from './check.ts';

/** Two thicknesses closer than this are the same sheet, whatever unit or gauge it is ordered in. */
const SAME_STOCK_MM = 0.005;

/** A thickness that the sheet is not usually sold in. */
export const thicknessNotStocked: Check = {
  rule: 'thickness-not-stocked',
  title: 'The sheet is not usually sold in this thickness.',
  severities: ['note'],
  reason:
    'A blank drawn for a sheet that cannot be bought folds to other dimensions out of the sheet that can.',
  source: 'the stock list of the material; its own source stands in the catalogue',
  measured: 'the thickness against the stock list of the material',
  mend: 'Measure the sheet before cutting, and give what it measures.',
  run: ({ flat, material }) => {
    const stock = material.stockThicknessesMm.value;
    const t = flat.thicknessMm;
    if (stock.some((s) => Math.abs(s - t) <= SAME_STOCK_MM)) return [];
    const near = [stock.findLast((s) => s < t), stock.find((s) => s > t)].filter(
      (s) => s !== undefined,
    );
    const message =
      `${material.name} of ${figure(t, 3)} mm is not on the stock list (${material.stockThicknessesMm.basis}): ` +
      `the nearest is ${near.map((s) => figure(s)).join(' or ')} mm. Measure the sheet before cutting.`;
    return [
      {
        ...note(thicknessNotStocked, message),
        inputs: ['thickness'],
        measured: { value: t, unit: 'mm' },
      },
    ];
  },
};
