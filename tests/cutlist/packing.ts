/**
 * Blanks as sets of unit squares, and how many sheets of unit squares they take at least: by trying
 * everything.
 */

/** Rows of a blank from the top, `#` where there is metal. */
export type Cells = readonly string[];

type Place = readonly (readonly [x: number, y: number])[];

const cellsOf = (rows: Cells): Place =>
  rows.flatMap((row, y) =>
    [...row].flatMap((c, x) => (c === '#' ? [[x, rows.length - 1 - y] as const] : [])),
  );

/** Turned by quarters and turned over. */
const turned = (cells: Place): Place[] => {
  const quarter = (p: Place): Place => p.map(([x, y]) => [-y, x] as const);
  const over = (p: Place): Place => p.map(([x, y]) => [-x, y] as const);
  const turns = [cells, quarter(cells), quarter(quarter(cells)), quarter(quarter(quarter(cells)))];
  return [...turns, ...turns.map(over)].map((p) => {
    const [minX, minY] = [Math.min(...p.map((c) => c[0])), Math.min(...p.map((c) => c[1]))];
    return p.map(([x, y]) => [x - minX, y - minY] as const);
  });
};

/** All ways in which a blank lies on a sheet, as bits of the cells that it covers. */
const waysOn = (blank: Cells, columns: number, rows: number): bigint[] => {
  const ways = new Set<bigint>();
  for (const cells of turned(cellsOf(blank))) {
    for (let dx = 0; dx < columns; dx++) {
      for (let dy = 0; dy < rows; dy++) {
        if (cells.some(([x, y]) => x + dx >= columns || y + dy >= rows)) continue;
        ways.add(
          cells.reduce((bits, [x, y]) => bits | (1n << BigInt((y + dy) * columns + x + dx)), 0n),
        );
      }
    }
  }
  return [...ways];
};

/**
 * Blanks of whole cells that lie square are as well moved to whole cells, so that this is the least
 * of all square layouts.
 */
export const fewestSheets = (blanks: readonly Cells[], columns: number, rows: number): number => {
  const ways = blanks
    .map((blank) => waysOn(blank, columns, rows))
    .toSorted((a, b) => a.length - b.length);
  const fits = (sheets: bigint[], i: number): boolean => {
    const own = ways[i];
    if (own === undefined) return true;
    const seen = new Set<bigint>();
    return sheets.some((taken, s) => {
      // Sheets that hold the same are one.
      if (seen.has(taken)) return false;
      seen.add(taken);
      return own.some((way) => (taken & way) === 0n && fits(sheets.with(s, taken | way), i + 1));
    });
  };
  for (let count = 1; ; count++) if (fits(Array<bigint>(count).fill(0n), 0)) return count;
};
