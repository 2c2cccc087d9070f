import type { LaidOn } from '../../contract/cut-list.ts';
import { usedPercent } from '../../cutting/used.ts';
import { SAME_LENGTH_MM } from '../../geometry/tolerance.ts';
import type { Drawing } from '../../model/drawing.ts';
import type { LaidSheet } from '../../model/laid.ts';
import { type AskedPart, notLaid } from './read-layout.ts';

/** The sheets of a layout that are of a material and thickness. */
export const sheetsOf = (
  sheets: readonly LaidSheet[],
  material: string | null,
  thicknessMm: number | null,
): readonly LaidSheet[] =>
  sheets.filter(
    (sheet) =>
      (material === null || sheet.material === material) &&
      (thicknessMm === null || Math.abs(sheet.thicknessMm - thicknessMm) < SAME_LENGTH_MM),
  );

/** What parts of one material and thickness are laid on, by a layout that was found to be theirs. */
export const laidOnOf = (
  sheets: readonly LaidSheet[],
  asked: readonly AskedPart[],
  drawings: ReadonlyMap<string, Drawing>,
): LaidOn => {
  const left = notLaid(sheets, asked);
  if ('given' in left) throw new Error(`a layout of other parts: ${left.given}`);
  const prices = sheets.map(({ stock }) => stock.price ?? (stock.isRemnant ? 0 : undefined));
  return {
    sheets: sheets.map((sheet) => ({
      name: sheet.name,
      stock: sheet.stock.name,
      isRemnant: sheet.stock.isRemnant,
      blanks: sheet.parts.length,
      usedPercent: usedPercent(sheet, drawings),
    })),
    cost: prices.reduce<number | null>(
      (sum, price) => (sum === null || price === undefined ? null : sum + price),
      0,
    ),
    notLaid: left,
  };
};
