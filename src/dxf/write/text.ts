import type { Drawing } from '../../model/drawing.ts';
import { singleLine } from '../../text/single-line.ts';

/**
 * Letters that have a customary spelling without their mark; the marks of all others are dropped.
 */
const SPELT: ReadonlyMap<string, string> = new Map([
  ['ä', 'ae'],
  ['ö', 'oe'],
  ['ü', 'ue'],
  ['Ä', 'Ae'],
  ['Ö', 'Oe'],
  ['Ü', 'Ue'],
  ['ß', 'ss'],
  ['æ', 'ae'],
  ['Æ', 'Ae'],
  ['œ', 'oe'],
  ['Œ', 'Oe'],
  ['å', 'aa'],
  ['Å', 'Aa'],
  ['ł', 'l'],
  ['Ł', 'L'],
  ['²', '2'],
  ['³', '3'],
  ['×', 'x'],
  ['·', '*'],
  ['÷', '/'],
  ['–', '-'],
  ['—', '-'],
  ['−', '-'],
  ['‑', '-'],
  ['⁄', '/'],
  ['‘', "'"],
  ['’', "'"],
  ['′', "'"],
  ['“', '"'],
  ['”', '"'],
  ['„', '"'],
  ['″', '"'],
  // Codes of DXF for signs outside ASCII (DXF Reference, TEXT).
  ['°', '%%d'],
  ['±', '%%p'],
  ['ø', '%%c'],
  ['Ø', '%%c'],
  ['⌀', '%%c'],
]);

/** The comments at the head of a file: its mark, and its remarks. */
export const headLines = ({ mark, remarks = [] }: Drawing): string[] =>
  [...(mark === undefined ? [] : [mark]), ...remarks].map(singleLine);

/**
 * A line of text for DXF in ASCII alone, so that it reads the same in any code page. A character
 * that cannot be spelt becomes `?`.
 */
export const dxfText = (line: string): string =>
  /^[ -$&-[\]_-~]*$/.test(line) ? line : spelt(escaped(line.normalize('NFC')));

/** Keeps readers of DXF from taking characters for codes (%%d, ^J, \U+0041). */
const escaped = (line: string): string =>
  line
    .replace(/%(?=[%°±øØ⌀])/g, '% ')
    .replace(/\^(?! )/g, '^ ')
    .replace(/\\(?=[UM]\+)/gi, '/')
    .trimEnd();

const spelt = (line: string): string => {
  let ascii = '';
  for (const letter of line) {
    if (letter <= '~') {
      ascii += letter;
      continue;
    }
    if (/[¼-¾⅐-⅞]/.test(letter)) {
      ascii += (/\d$/.test(ascii) ? ' ' : '') + letter.normalize('NFKD').replace('⁄', '/');
      continue;
    }
    const plain = letter.normalize('NFD').replace(/\p{M}/gu, '');
    ascii += SPELT.get(letter) ?? (/^[ -~]+$/.test(plain) ? plain : '?');
  }
  return ascii;
};
