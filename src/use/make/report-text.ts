import { type Printed, printedIn } from '../../text/printed.ts';
import { unitFigure } from '../../text/unit-figure.ts';
import type { ReportTable } from '../../contract/report.ts';
import type { ReportResult } from '../../contract/part.ts';
import { TERMINAL_COLUMNS, textColumns } from '../../text/columns.ts';

/** Figures and tables of what was made, as plain text. */
export const reportText = ({ name, figures, tables }: ReportResult, print = printedIn()): string =>
  [
    `${name} in figures`,
    ...figures.map(
      (f) =>
        `  ${f.name}: ${withUnit(f.value, f.unit, print)}${f.about === undefined ? '' : ` (${print.words(f.about)})`}`,
    ),
    ...tables.flatMap((table) => tableLines(table, print)),
  ].join('\n');

const withUnit = (value: number, unit: string, print: Printed): string =>
  unitFigure(value, unit, print).join(' ').trim();

const tableLines = ({ title, columns, rows }: ReportTable, print: Printed): string[] => {
  const heads = columns.map(({ name, unit }) =>
    unit === '' ? name : `${name}, ${unitFigure(0, unit, print)[1]}`,
  );
  const cells = rows.map((row) =>
    row.map((value, i) => unitFigure(value, columns[i]?.unit ?? '', print)[0]),
  );
  return [
    `  ${title}`,
    ...textColumns([heads, ...cells], () => false, TERMINAL_COLUMNS - 4).map(
      (line) => `    ${line}`,
    ),
  ];
};
