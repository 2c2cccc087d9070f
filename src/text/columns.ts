/**
 * Rows as lines of text, each column as wide as its widest entry: words to the left, figures to the
 * right.
 */
export const textColumns = (
  rows: readonly (readonly string[])[],
  isWords: (column: number) => boolean,
): string[] => {
  const [first = []] = rows;
  const widths = first.map((_, i) => Math.max(...rows.map((row) => (row[i] ?? '').length)));
  const cell = (text: string, i: number): string =>
    isWords(i) ? text.padEnd(widths[i] ?? 0) : text.padStart(widths[i] ?? 0);
  return rows.map((row) => row.map(cell).join('  ').trimEnd());
};
