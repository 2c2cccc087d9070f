import type { LaidSheetResult, LayResult } from '../../contract/lay.ts';
import { printedIn, type PrintUnit } from '../../text/printed.ts';

/** The sheets that are cut from, what is left of them, what to buy and what is not laid. */
export const layText = (result: LayResult, units?: PrintUnit): string => {
  const { sheets, buy, left, groups } = result;
  const { words } = printedIn(units);
  const size = (a: number, b: number): string => words(`${rounded(a)} x ${rounded(b)} mm`);
  const lines = sheets.flatMap((sheet) => [
    `${sheet.name}: ${sheet.isRemnant ? 'remnant ' : ''}${sheet.stock}, ${size(sheet.widthMm, sheet.heightMm)}`,
    `  ${partsOf(sheet)}`,
    `  ${sheet.usedPercent.toFixed(0)} % of it used; ${
      sheet.cleanMm === null
        ? 'no clean rectangle is left'
        : `clean ${size(sheet.cleanMm.widthMm, sheet.cleanMm.heightMm)} left`
    }`,
  ]);
  return [
    ...lines,
    ...buy.map(({ stock, material, thicknessMm, count, price }) =>
      words(
        `buy ${count} of ${stock} in ${material}, ${thicknessMm} mm${price === null ? '' : `, price ${rounded(price)}`}`,
      ),
    ),
    ...left.map(({ name, count, reason }) => words(`left out  ${name}, ${count} of it: ${reason}`)),
    ...groups.map(
      ({ material, thicknessMm, sheets: whole, remnants, isLeast }) =>
        words(
          `${material} ${thicknessMm} mm: ${plural(whole, 'sheet')}, ${plural(remnants, 'remnant')}`,
        ) + (isLeast ? '; no fewer sheets do' : ''),
    ),
  ].join('\n');
};

const plural = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;

const partsOf = ({ parts }: LaidSheetResult): string => {
  const counts = new Map<string, number>();
  for (const { name } of parts) counts.set(name, (counts.get(name) ?? 0) + 1);
  return [...counts].map(([name, n]) => (n === 1 ? name : `${name} x${n}`)).join(', ');
};

const rounded = (figure: number): number => Math.round(figure * 10) / 10;
