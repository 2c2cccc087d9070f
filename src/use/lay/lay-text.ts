import type { LayResult } from '../../contract/lay.ts';
import type { LaidSheet } from '../../model/laid.ts';
import { findingLine } from '../../model/finding-line.ts';
import { printedFinding } from '../../model/printed-finding.ts';
import { figure } from '../../text/figures.ts';
import { printedIn, type PrintUnit } from '../../text/printed.ts';
import { laidTable } from '../laid/laid-table.ts';

/** The sheets that are cut from, what is left of them, what to buy and what is not laid. */
export const layText = (
  result: LayResult,
  sheets: readonly LaidSheet[],
  units?: PrintUnit,
): string => {
  const { buy, left, groups, findings } = result;
  const print = printedIn(units);
  const { words } = print;
  const told = result.sheets.flatMap(({ name, usedPercent, clean }) => {
    const sheet = sheets.find((one) => one.name === name);
    const box =
      clean === null
        ? undefined
        : {
            minX: clean.x,
            minY: clean.y,
            maxX: clean.x + clean.widthMm,
            maxY: clean.y + clean.heightMm,
          };
    return sheet === undefined ? [] : [{ sheet, usedPercent, clean: box }];
  });
  return [
    ...(told.length > 0 ? [laidTable(told, units), ''] : []),
    ...groups.map(
      ({ material, thicknessMm, sheets: whole, remnants, isLeast }) =>
        words(
          `${material} ${figure(thicknessMm, 3)} mm: ${plural(whole, 'sheet')}, ${plural(remnants, 'remnant')}`,
        ) + (isLeast && whole > 0 ? '; fewer or cheaper sheets do not hold it' : ''),
    ),
    ...buy.map(
      ({ stock, material, thicknessMm, count, price }) =>
        words(`buy ${count} of ${stock} in ${material} ${figure(thicknessMm, 3)} mm`) +
        (price === null ? '' : `, price ${figure(price, 2)}`),
    ),
    ...left.map(({ name, count, reason }) => words(`left out  ${count} of ${name}: ${reason}`)),
    ...findings.map((one) => findingLine(printedFinding(one, print))),
  ].join('\n');
};

const plural = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;
