import { strToU8, zipSync, type ZippableFile } from 'fflate';

/** A file of an archive. */
export interface Entry {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/**
 * An archive with the same bytes whenever and wherever it is packed. Its first entry is stored
 * uncompressed, so that it can be read at the archive's beginning; the others follow in their
 * order.
 */
export const archive = (first: Entry, others: readonly Entry[]): Uint8Array =>
  zipSync(
    Object.fromEntries<ZippableFile>([
      packed(first, 0),
      ...others.map((entry) => packed(entry, 9)),
    ]),
  );

const packed = ({ name, bytes }: Entry, level: 0 | 9): [string, ZippableFile] => [
  name,
  [bytes, { level, mtime: WHEN }],
];

/**
 * The first day that the format knows, at noon, which no change of clocks leaves out. Archives hold
 * local time, and a text without a zone is local time too, so the bytes are the same everywhere.
 */
const WHEN = '1980-01-01T12:00:00';

export const utf8 = (text: string): Uint8Array => strToU8(text);

/** The SHA-256 digest of some bytes (FIPS 180-4), in hexadecimal. */
export const sha256 = async (bytes: Uint8Array): Promise<string> => {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', new Uint8Array(bytes)));
  return [...digest].map((b) => b.toString(16).padStart(2, '0')).join('');
};
