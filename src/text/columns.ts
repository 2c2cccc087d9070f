import { unbroken, withPlainSpaces } from './unbroken.ts';

/** A terminal has as many columns as a card had (common practice); two are left free. */
export const TERMINAL_COLUMNS = 78;

/** No column of words gets narrower by wrapping them. */
const NARROWEST = 9;
const BETWEEN = '  ';

/**
 * Rows as lines of text, each column as wide as its widest entry: words to the left, figures to the
 * right. Where that is wider than `most`, words are wrapped within their columns, the widest first.
 */
export const textColumns = (
  rows: readonly (readonly string[])[],
  isWords: (column: number) => boolean,
  most = TERMINAL_COLUMNS,
): string[] => {
  const [first = []] = rows;
  const widths = first.map((_, i) => Math.max(...rows.map((row) => (row[i] ?? '').length)));
  const total = (): number =>
    widths.reduce((sum, w) => sum + w, 0) + BETWEEN.length * (widths.length - 1);
  while (total() > most) {
    const widest = widths.reduce(
      (best, w, i) => (isWords(i) && w > (widths[best] ?? NARROWEST) ? i : best),
      -1,
    );
    if (widest < 0) break;
    widths[widest] = (widths[widest] as number) - 1;
  }
  const lined = (text: string, i: number): string =>
    isWords(i) ? text.padEnd(widths[i] ?? 0) : text.padStart(widths[i] ?? 0);
  return rows.flatMap((row) => {
    const cells = row.map((text, i) => (isWords(i) ? wordLines(text, widths[i] ?? 0) : [text]));
    const lines = Math.max(...cells.map((cell) => cell.length));
    return Array.from({ length: lines }, (_, k) =>
      cells
        .map((cell, i) => lined(cell[k] ?? '', i))
        .join(BETWEEN)
        .trimEnd(),
    );
  });
};

/** A text in lines of at most so many letters, broken at spaces; a longer word keeps its line. */
const wordLines = (text: string, most: number): string[] => {
  const lines: string[] = [];
  let line = '';
  for (const word of unbroken(text).split(' ')) {
    if (line !== '' && line.length + 1 + word.length > most) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line].map(withPlainSpaces);
};

/**
 * A text whose lines are no longer than `most`: what is longer goes on below, indented to where its
 * words begin, behind a label or a number. A word that has no room by itself, such as a path, is
 * left whole.
 */
export const fitLines = (text: string, most = TERMINAL_COLUMNS): string =>
  text
    .split('\n')
    .flatMap((line) => fitLine(line, most))
    .join('\n');

/** `  fold   A: 90`, `    1. fold`, `  CAUTION Cut`: what stands before the words of a line. */
const LABEL = /^\s*(?:CAUTION |\d+\. |[^\s:]+(?: [^\s:]+)? {2,})?/;
/** Words begin no farther to the right than this. */
const DEEPEST = 24;

const fitLine = (line: string, most: number): string[] => {
  if (line.length <= most) return [line];
  const label = LABEL.exec(line)?.[0] ?? '';
  const own = label.trim() === '' ? `${label}  ` : label;
  const hang = ' '.repeat(
    own.length > DEEPEST ? (/^\s*/.exec(line)?.[0].length ?? 0) + 2 : own.length,
  );
  const lines: string[] = [];
  let rest = unbroken(line);
  let indent = '';
  while (indent.length + rest.length > most) {
    const room = most - indent.length;
    const start = indent === '' ? label.length : 0;
    const before = rest.lastIndexOf(' ', room);
    const at = before > start ? before : rest.indexOf(' ', Math.max(room, start));
    if (at < 0) break;
    lines.push((indent + rest.slice(0, at)).trimEnd());
    rest = rest.slice(at + 1).trimStart();
    indent = hang;
  }
  return [...lines, indent + rest].map(withPlainSpaces);
};
