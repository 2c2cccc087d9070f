import { figure } from '../figures.ts';
import type { ReportTable } from '../model/report.ts';
import type { ReportResult } from '../result.ts';

/** Figures and tables of what was made, as plain text. */
export const reportText = ({ name, figures, tables }: ReportResult): string =>
  [
    `${name} in figures`,
    ...figures.map((f) => `  ${f.name}: ${withUnit(f.value, f.unit)}${f.about === undefined ? '' : ` (${f.about})`}`),
    ...tables.flatMap(tableLines),
  ].join('\n');

const withUnit = (value: number, unit: string): string => (unit === '' ? figure(value) : `${figure(value)} ${unit}`);

/** Columns as wide as their widest entry, numbers to the right. */
const tableLines = ({ title, columns, rows }: ReportTable): string[] => {
  const heads = columns.map(({ name, unit }) => (unit === '' ? name : `${name}, ${unit}`));
  const cells = rows.map((row) => row.map((value) => figure(value)));
  const widths = heads.map((head, i) => Math.max(head.length, ...cells.map((row) => (row[i] ?? '').length)));
  const line = (texts: readonly string[]): string => `    ${texts.map((text, i) => text.padStart(widths[i] ?? 0)).join('  ')}`;
  return [`  ${title}`, line(heads), ...cells.map(line)];
};
