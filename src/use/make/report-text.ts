import { figure } from '../../text/figures.ts';
import type { ReportTable } from '../../contract/report.ts';
import type { ReportResult } from '../../contract/part.ts';
import { TERMINAL_COLUMNS, textColumns } from '../../text/columns.ts';

/** Figures and tables of what was made, as plain text. */
export const reportText = ({ name, figures, tables }: ReportResult): string =>
  [
    `${name} in figures`,
    ...figures.map(
      (f) =>
        `  ${f.name}: ${withUnit(f.value, f.unit)}${f.about === undefined ? '' : ` (${f.about})`}`,
    ),
    ...tables.flatMap(tableLines),
  ].join('\n');

const withUnit = (value: number, unit: string): string =>
  unit === '' ? figure(value) : `${figure(value)} ${unit}`;

const tableLines = ({ title, columns, rows }: ReportTable): string[] => {
  const heads = columns.map(({ name, unit }) => (unit === '' ? name : `${name}, ${unit}`));
  const cells = rows.map((row) => row.map((value) => figure(value)));
  return [
    `  ${title}`,
    ...textColumns([heads, ...cells], () => false, TERMINAL_COLUMNS - 4).map(
      (line) => `    ${line}`,
    ),
  ];
};
