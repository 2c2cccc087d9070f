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
