import { fitLines, TERMINAL_COLUMNS } from '../text/columns.ts';

/**
 * Width of pages of text, within reason: as the environment asks (POSIX COLUMNS), as the terminal
 * is, or the usual one.
 */
export const columns = (): number => {
  const asked = Number(process.env['COLUMNS']);
  return Math.min(
    100,
    Math.max(30, Number.isInteger(asked) && asked > 0 ? asked : (process.stdout.columns ?? 80)),
  );
};

/** Letters of a line of what a command tells, where the environment or the terminal asks for any. */
const lineWidth = (): number => {
  const asked = Number(process.env['COLUMNS']);
  const wide = Number.isInteger(asked) && asked > 0 ? asked : (process.stdout.columns ?? 0);
  return wide > 0 ? Math.max(30, wide - 2) : TERMINAL_COLUMNS;
};

/** What a command tells a person, in lines that fit the terminal. */
export const inLines = (text: string): string => fitLines(text, lineWidth());

/** A text broken into lines of the terminal's width, each indented. */
export function wrapWords(text: string, indent: string, most = Math.min(78, columns())): string {
  const lines: string[] = [];
  let line = indent;
  for (const word of text.split(' ')) {
    if (line.length + word.length > most && line !== indent) {
      lines.push(line.trimEnd());
      line = indent;
    }
    line += `${word} `;
  }
  return [...lines, line.trimEnd()].join('\n');
}

/** A command line as typed, indented. Long ones are broken into lines that a shell joins again. */
export const typed = (words: string): string => typedWords(words.split(/ (?=--)/));

/** The same for words that must not be broken apart. */
export const typedWords = ([first = '', ...words]: readonly string[]): string => {
  const lines: string[] = [];
  let line = `  blankwright ${first}`;
  for (const word of words) {
    if (line.length + word.length > 76) {
      lines.push(`${line} \\`);
      line = '     ';
    }
    line += ` ${word}`;
  }
  return [...lines, line].join('\n');
};
