import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { EMPTY_JOB } from '../../page/model/job-text.ts';
import type { Opened, Saved } from '../../page/model/kept.ts';
import { DiskRefused, WrongInput } from '../failure.ts';
import { readTextFile } from '../read-text-file.ts';
import { saveAll } from '../save.ts';
import { findShopFile } from '../shop-file.ts';

/** Largest text that is taken, as large as a job file may be. */
export const LARGEST_BYTES = 5_000_000;

/** The two files that a page reads and writes. */
export interface PageFiles {
  readonly open: () => Promise<Opened>;
  readonly saveJob: (text: string, stamp: string) => Promise<Saved>;
  readonly saveShop: (text: string) => Promise<Saved>;
}

const stampOf = (text: string): string => createHash('sha256').update(text).digest('hex');
/** The stamp of a file that is not there yet. */
const NONE = 'none';

/**
 * The job file, which need not exist yet, and the shop file that the command would use with it;
 * where there is none, the shop is saved beside the job.
 */
export const pageFiles = (jobFile: string): PageFiles => {
  const shopFile = (): string =>
    findShopFile(undefined, jobFile) ?? join(dirname(jobFile), 'shop.yaml');
  const read = async (path: string, input: string): Promise<string | undefined> =>
    existsSync(path)
      ? readTextFile(path, {
          input,
          allowed: 'a YAML or JSON file',
          tooLarge: 'make several of it',
          mostBytes: LARGEST_BYTES,
        })
      : undefined;
  return {
    open: async () => {
      const job = await read(jobFile, 'job');
      return {
        job: job ?? EMPTY_JOB,
        shop: (await read(shopFile(), 'shop')) ?? null,
        name: basename(jobFile),
        stamp: job === undefined ? NONE : stampOf(job),
      };
    },
    saveJob: async (text, stamp) => {
      const there = await read(jobFile, 'job');
      const now = there === undefined ? NONE : stampOf(there);
      if (now !== stamp && there !== text)
        return { how: 'changed', theirs: there ?? '', stamp: now };
      return written(jobFile, text);
    },
    saveShop: (text) => Promise.resolve(written(shopFile(), text)),
  };
};

const written = (path: string, text: string): Saved => {
  try {
    saveAll(dirname(path), [{ name: basename(path), contents: text, mark: '' }], true);
    return { how: 'saved', stamp: stampOf(text) };
  } catch (error) {
    if (error instanceof DiskRefused || error instanceof WrongInput)
      return { how: 'refused', why: error.message };
    throw error;
  }
};
