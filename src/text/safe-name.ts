/** Device names that one common operating system keeps for itself, whatever extension follows. */
const RESERVED = /^(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)/i;

const LONGEST = 80;

/**
 * Usual Latin spellings of letters that are not a plain letter with an accent (from memory; the
 * sound is not the point).
 */
const spelt = (letters: string, ...spellings: readonly string[]): [string, string][] =>
  [...letters].map((letter, i) => [letter, spellings[i] ?? '']);

const LETTERS: ReadonlyMap<string, string> = new Map([
  ...spelt('äöüß', 'ae', 'oe', 'ue', 'ss'),
  ...spelt('æœøđðþłıħŋŧ', 'ae', 'oe', 'o', 'd', 'd', 'th', 'l', 'i', 'h', 'ng', 't'),
  ...spelt(
    'αβγδεζηθικλμνξοπρσςτυφχψω',
    ...'a v g d e z i th i k l m n x o p r s s t y f ch ps o'.split(' '),
  ),
  ...spelt(
    'абвгдежзийклмнопрстуфхцчшщъыьэюя',
    ...'a b v g d e zh z i y k l m n o p r s t u f kh ts ch sh shch  y  e yu ya'.split(' '),
  ),
  ...spelt('іїєґђјљњћџ', 'i', 'i', 'ye', 'g', 'dj', 'j', 'lj', 'nj', 'c', 'dz'),
]);

/** A letter in Latin spelling, or the letter itself. Capitals keep their first letter large. */
const inLatin = (letter: string): string => {
  const small = letter.toLowerCase();
  const spelling = LETTERS.get(small);
  if (spelling === undefined) return letter;
  return small === letter ? spelling : spelling.slice(0, 1).toUpperCase() + spelling.slice(1);
};

/**
 * The name in Latin letters: first those in the table, then those that are a letter of the table,
 * or a Latin one, with an accent.
 */
const latinised = (name: string): string =>
  [...name.normalize('NFC')]
    .map(inLatin)
    .join('')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/\p{L}/gu, inLatin);

/**
 * A file name, without extension, that every common file system takes: ASCII letters, digits, `.`,
 * `-` and `_`, 1 to 80 characters, no separator, no dot at either end, no reserved device name.
 * Equal names give equal file names; different ones may give the same. A name with no Latin
 * spelling here, such as one in Chinese, is made distinct by a number computed from the whole name.
 */
export function safeName(name: string): string {
  const latin = latinised(name);
  const trimmed = trim(latin.replace(/[^A-Za-z0-9._-]+/g, '-').replace(/-{2,}/g, '-'));
  const isLost =
    /[^\0-\x7f]/.test(latin.replace(/[^\p{L}\p{N}]/gu, '')) ||
    (trimmed === '' && name.trim() !== '');
  const end = isLost ? `-${numberOf(name.normalize('NFC'))}` : '';
  const whole = `${trim(trimmed.slice(0, LONGEST - 1 - end.length)) || 'part'}${end}`;
  return RESERVED.test(whole) ? `_${whole}` : whole;
}

const trim = (text: string): string => text.replace(/^[.-]+|[.-]+$/g, '');

/**
 * A text's hash in figures and letters: FNV-1a, 32 bits (Fowler, Noll, Vo), over its UTF-16 units.
 */
const numberOf = (text: string): string => {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return (hash >>> 0).toString(36).padStart(7, '0');
};
