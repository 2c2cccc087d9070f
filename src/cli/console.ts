import { writeSync } from 'node:fs';
import { DiskRefused } from './failure.ts';

/** Loads the module at a URL. */
export type ImportModule = (url: string) => Promise<unknown>;

/** How commands write: standard output for results, standard error for everything else. */
export interface Console {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** The launcher's `import`, since code that was compiled ahead cannot import by itself. */
  readonly importModule: ImportModule;
}

/** The process' own standard output and standard error. */
export const processConsole = (importModule: ImportModule): Console => ({
  out: linesTo(1, () => process.stdout),
  err: linesTo(2, () => process.stderr),
  importModule,
});

/**
 * Writes straight to the file descriptor, because opening Node's stream takes as long as all the
 * sums of a part. The stream takes over where a pipe is full and would have to be waited for. A
 * reader that has gone away is no error.
 */
const linesTo = (descriptor: number, open: () => NodeJS.WriteStream): ((text: string) => void) => {
  let stream: NodeJS.WriteStream | undefined;
  let isRefused = false;
  return (text) => {
    // A refused write is told once, when the command ends.
    if (isRefused) return;
    const bytes = Buffer.from(`${text}\n`);
    let written = 0;
    try {
      if (stream === undefined) written = writeNow(descriptor, bytes);
    } catch (error) {
      isRefused = true;
      throw error;
    }
    if (written === bytes.length) return;
    stream ??= open().on('error', (error) => {
      if (!isGone(error)) throw error;
    });
    stream.write(bytes.subarray(written));
  };
};

/**
 * Number of bytes that could be written without waiting; all of them count as written where nobody
 * reads.
 */
const writeNow = (descriptor: number, bytes: Uint8Array): number => {
  let written = 0;
  try {
    while (written < bytes.length) written += writeSync(descriptor, bytes, written);
  } catch (error) {
    if (isGone(error)) return bytes.length;
    if (error instanceof Error && 'code' in error && error.code === 'EAGAIN') return written;
    // Nobody is left to be told that standard error failed.
    if (descriptor === 2) return bytes.length;
    throw new DiskRefused('The answer could not be printed', 'standard output', error);
  }
  return written;
};

const isGone = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && error.code === 'EPIPE';
