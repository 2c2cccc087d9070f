/** Device names that one common operating system keeps for itself, whatever extension follows. */
const RESERVED = /^(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)/i;

const LONGEST = 80;

/** German umlauts have a customary spelling; every other accent is simply dropped. */
const UMLAUTS: ReadonlyMap<string, string> = new Map([
  ['ä', 'ae'],
  ['ö', 'oe'],
  ['ü', 'ue'],
  ['Ä', 'Ae'],
  ['Ö', 'Oe'],
  ['Ü', 'Ue'],
  ['ß', 'ss'],
]);

/**
 * A file name, without extension, that every common file system takes: ASCII letters, digits, `.`, `-` and `_`,
 * 1 to 80 characters, no separator, no dot at either end, no reserved device name. Equal names stay equal; different ones may
 * meet.
 */
export function safeName(name: string): string {
  const ascii = name
    .normalize('NFC')
    .replace(/[äöüÄÖÜß]/g, (letter) => UMLAUTS.get(letter) ?? letter)
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[^A-Za-z0-9._-]+/g, '-')
    .replace(/-{2,}/g, '-');
  const trimmed = trim(trim(ascii).slice(0, LONGEST - 1));
  if (trimmed === '') return 'part';
  return RESERVED.test(trimmed) ? `_${trimmed}` : trimmed;
}

const trim = (text: string): string => text.replace(/^[.-]+|[.-]+$/g, '');
