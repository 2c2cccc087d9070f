import { grouped } from '../../text/grouped.ts';
import { KEPT } from '../../text/unbroken.ts';
import { textColumns } from '../../text/columns.ts';
import { figure } from '../../text/figures.ts';
import { printedIn, type PrintUnit } from '../../text/printed.ts';
import type { Extents } from '../../geometry/extents.ts';
import type { LaidSheet } from '../../model/laid.ts';

/** A sheet, and what is told of it in the table of all. */
export interface ToldSheet {
  readonly sheet: LaidSheet;
  readonly usedPercent: number;
  /** The largest clean rectangle that is left, where that is known. */
  readonly clean?: Extents | undefined;
}

/**
 * All sheets as a table for the terminal: the sheet, what it is cut from, its parts, how much of it
 * they are, and what is left clean. Names of parts are wrapped within their column.
 */
export const laidTable = (sheets: readonly ToldSheet[], units?: PrintUnit): string => {
  const { tape, word } = printedIn(units);
  const rows = sheets.map(({ sheet, usedPercent, clean }) => [
    sheet.name,
    sheet.stock.name,
    partsText(sheet),
    figure(usedPercent, 0),
    clean === undefined
      ? '-'
      : `${tape(clean.maxX - clean.minX, 0)} x ${tape(clean.maxY - clean.minY, 0)}`,
  ]);
  const head = ['sheet', 'from', 'parts', '% used', `left clean, ${word}`];
  return textColumns([head, ...rows], (column) => column < 3).join('\n');
};

/** `3 lamp-bracket, tank-strap`; no line ends between a number and its name. */
const partsText = ({ parts }: LaidSheet): string =>
  grouped(parts, ({ name }) => name)
    .map(([first, ...others]) =>
      others.length === 0 ? first?.name : `${others.length + 1}${KEPT}${first?.name ?? ''}`,
    )
    .join(', ');
