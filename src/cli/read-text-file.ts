import { closeSync, openSync, readSync } from 'node:fs';
import { LARGEST_BYTES as LARGEST_DXF_BYTES } from '../dxf/read/decode.ts';
import { readingReason, WrongInput } from './failure.ts';

/**
 * Limit on the size of a YAML file. Its reader compares every name with every other: a megabyte of
 * names takes it a minute, this much under a second.
 */
export const LARGEST_BYTES = 100_000;

/** What messages need to know about a file that cannot be read. */
export interface WantedFile {
  /** The flag that named it. */
  readonly input: string;
  readonly allowed: string;
  /** Advice for a file that is too large. */
  readonly tooLarge: string;
  /** Limit for a file that does not go through the YAML reader. */
  readonly mostBytes?: number;
}

/** The text of a file that a person wrote. Any reason why it cannot be read is a `WrongInput`. */
export const readTextFile = async (
  path: string,
  { input, allowed, tooLarge, mostBytes = LARGEST_BYTES }: WantedFile,
): Promise<string> => {
  const refuse = (given: string, instead: string, mend: string): never => {
    throw new WrongInput([{ input, given, allowed: instead, mend }]);
  };
  try {
    const bytes = readBytes(path, mostBytes + 1);
    if (bytes.length > mostBytes)
      return refuse(`${path}, which is larger`, `a file of at most ${mostBytes} bytes`, tooLarge);
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (error) {
    if (error instanceof WrongInput) throw error;
    if (error instanceof TypeError)
      return refuse(`${path}, which is not UTF-8 text`, allowed, 'save it as UTF-8');
    return refuse(path, allowed, `it cannot be read: ${readingReason(error)}`);
  }
};

/**
 * The beginning of a file, or of a pipe or device, which tell no size and may never end. It is read
 * synchronously: loading what a promise needs takes Node as long as the sums of a part.
 */
export const readBytes = (path: string, most: number): Uint8Array => {
  const file = openSync(path, 'r');
  try {
    const bytes = new Uint8Array(most);
    let length = 0;
    for (;;) {
      const read = readSync(file, bytes, length, most - length, null);
      length += read;
      if (read === 0 || length === most) return bytes.subarray(0, length);
    }
  } finally {
    closeSync(file);
  }
};

/**
 * The bytes of a DXF file, at most one more than its reader takes. Any reason why it cannot be read
 * is a `WrongInput`.
 */
export const bytesOfDxf = (file: string): Uint8Array => {
  try {
    return readBytes(file, LARGEST_DXF_BYTES + 1);
  } catch (error) {
    throw new WrongInput([
      {
        input: 'file',
        given: file,
        allowed: 'a DXF file in text form',
        mend: `it cannot be read: ${readingReason(error)}`,
      },
    ]);
  }
};
