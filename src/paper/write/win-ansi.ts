import { singleLine } from '../../text/single-line.ts';

/** What Windows 1252 has in its places 80 to 9F (hexadecimal); five of them are free. */
const ELSEWHERE = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

/**
 * One line of a text in letters of Windows 1252, the code page that the standard fonts of a PDF
 * have (ISO 32000-1, annex D): the others lose their accents or become `?`.
 */
export const winAnsi = (text: string): string =>
  [...singleLine(text).normalize('NFC')]
    .map((letter) => (fits(letter) ? letter : plain(letter)))
    .join('');

/** The place of a letter in Windows 1252, of a text that is written in it. */
export const winAnsiCode = (letter: string): number => {
  const place = ELSEWHERE.indexOf(letter);
  return place < 0 ? letter.charCodeAt(0) : 0x80 + place;
};

const fits = (letter: string): boolean =>
  (letter >= ' ' && letter <= '~') ||
  (letter >= '\u00a1' && letter <= '\u00ff') ||
  (letter > '\u00ff' && ELSEWHERE.includes(letter));

/** Without its accents, where that leaves letters of the page. */
const plain = (letter: string): string => {
  const bare = letter.normalize('NFKD').replace(/\p{M}/gu, '');
  return bare !== '' && [...bare].every(fits) ? bare : '?';
};
