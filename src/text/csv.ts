/**
 * Places where spreadsheets take a formula to begin, including spreadsheets that separate cells by
 * semicolons (common practice).
 */
const FORMULA = /(^|[;\t\r\n|])(?=[=+\-@＝＋－＠\t\r])/g;

/**
 * A table as comma-separated values after RFC 4180: lines end in CR LF, and a value that holds a
 * comma, a quote or a line break is quoted. A text that a spreadsheet would take for a formula gets
 * an apostrophe in front.
 */
export const csv = (rows: readonly (readonly (string | number)[])[]): string =>
  rows.map((row) => `${row.map(cell).join(',')}\r\n`).join('');

const cell = (value: string | number): string => {
  if (typeof value === 'number') return String(value);
  const text = value.replace(FORMULA, "$1'");
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};
