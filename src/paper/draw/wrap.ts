import { unbroken, withPlainSpaces } from '../../text/unbroken.ts';
import { textWidthMm } from './text-width.ts';
import { EXACT_MM } from '../../geometry/tolerance.ts';

/**
 * A text in lines no wider than `widthMm`, broken between words; a word that is wider by itself is
 * broken where it must be.
 */
export const wrapped = (
  text: string,
  widthMm: number,
  sizeMm: number,
  isBold = false,
): string[] => {
  const fits = (line: string): boolean => textWidthMm(line, sizeMm, isBold) <= widthMm + EXACT_MM;
  const lines: string[] = [];
  let line = '';
  for (const word of unbroken(text)
    .split(/[^\S\u00a0]+/)
    .filter((w) => w !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (fits(longer)) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = '';
    for (const letter of word) {
      if (line !== '' && !fits(line + letter)) {
        lines.push(line);
        line = '';
      }
      line += letter;
    }
  }
  const all = line === '' && lines.length > 0 ? lines : [...lines, line];
  return all.map(withPlainSpaces);
};
