/**
 * What a paper is of, so that paper, part and file find each other again: as a text for a square code
 * and as a line for people. It says what it means without a network, and no address is asked for it.
 */
export interface PaperMark {
  /** Name of the part as its files have it. */
  readonly part: string;
  readonly revision?: string | undefined;
  /** Name of the file that the blank is cut from. */
  readonly file?: string | undefined;
  /** The first digits of the SHA-256 digest (FIPS 180-4) of that file, in hexadecimal. */
  readonly sha?: string | undefined;
}

/** So many tell files apart: two of ten thousand share them by chance once in five million shops. */
export const SHA_DIGITS = 12;

const SCHEME = 'blankwright:';

/** `blankwright:seat-post-L?rev=B&file=seat-post-L.dxf&sha=1a2b3c4d5e6f` (form: RFC 3986). */
export const paperMarkText = ({ part, revision, file, sha }: PaperMark): string => {
  const fields = [
    ['rev', revision],
    ['file', file],
    ['sha', sha],
  ].flatMap(([name, value]) =>
    value === undefined || value === '' ? [] : [`${name}=${escaped(value)}`],
  );
  return `${SCHEME}${escaped(part)}${fields.length === 0 ? '' : `?${fields.join('&')}`}`;
};

/** Half a pair of surrogates has no place in an address. */
const escaped = (value: string): string => encodeURIComponent(value.replace(/\p{Cs}/gu, '?'));

/** The same for people: `seat-post-L, revision B, seat-post-L.dxf, SHA-256 1a2b3c4d5e6f`. */
export const paperMarkWords = ({ part, revision, file, sha }: PaperMark): string =>
  [
    part,
    ...(revision === undefined || revision === '' ? [] : [`revision ${revision}`]),
    ...(file === undefined ? [] : [file]),
    ...(sha === undefined ? [] : [`SHA-256 ${sha}`]),
  ].join(', ');

const WORDS = /^(.+?)(?:, revision (.+?))?(?:, (\S+\.dxf))?, SHA-256 ([0-9a-f]{12})$/i;

/** A mark of what was read of it; what is not there, or empty, is left out. */
const markOf = (part: string, revision?: string, file?: string, sha?: string): PaperMark => ({
  part,
  ...(revision !== undefined && revision !== '' && { revision }),
  ...(file !== undefined && file !== '' && { file }),
  ...(sha !== undefined && sha !== '' && { sha: sha.toLowerCase() }),
});

/** The mark that was typed off the line for people. */
const readWords = (text: string): PaperMark | undefined => {
  const [, part, ...rest] = WORDS.exec(text) ?? [];
  return part === undefined ? undefined : markOf(part, ...rest);
};

/**
 * The mark that a text holds, as a reader of square codes, a search field or the fragment of an address
 * gives it: bare, behind `#`, or escaped once more as a whole; or as it stands in words beside the code.
 * `undefined` for any other text.
 */
export const readPaperMark = (text: string): PaperMark | undefined => {
  const bare = withoutAddress(text.trim());
  const whole = /^blankwright%3a/i.test(bare) ? unescaped(bare) : bare;
  if (whole === undefined) return undefined;
  if (!whole.toLowerCase().startsWith(SCHEME)) return readWords(whole);
  const [name = '', query = ''] = whole.slice(SCHEME.length).split(/\?(.*)/s);
  const part = unescaped(name);
  if (part === undefined || part === '') return undefined;
  const fields = new Map(
    query.split('&').map((field) => {
      const [key = '', value = ''] = field.split(/=(.*)/s);
      return [key, unescaped(value)] as const;
    }),
  );
  return markOf(part, fields.get('rev'), fields.get('file'), fields.get('sha'));
};

/** What stands behind the `#` of an address; a mark has none of its own, since it is escaped. */
const withoutAddress = (text: string): string => text.slice(text.indexOf('#') + 1);

const unescaped = (value: string): string | undefined => {
  try {
    return decodeURIComponent(value);
  } catch {
    return undefined;
  }
};
