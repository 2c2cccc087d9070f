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

/** The two files that a page reads and writes; each is saved by the stamp that it was read with. */
export interface PageFiles {
  readonly open: () => Promise<Opened>;
  readonly saveJob: (text: string, stamp: string) => Promise<Saved>;
  readonly saveShop: (text: string, stamp: string) => Promise<Saved>;
}

/** The stamp of a file that is not there yet. */
const NONE = 'none';
const stampOf = (text: string | undefined): string =>
  text === undefined ? NONE : createHash('sha256').update(text).digest('hex');

/**
 * The job file, which need not exist yet, and the shop file that the command would use with it;
 * where there is none, the shop is saved beside the job.
 */
export const pageFiles = (jobFile: string): PageFiles => {
  const shopFile = (): string =>
    findShopFile(undefined, jobFile) ?? join(dirname(jobFile), 'shop.yaml');
  const save = async (
    path: string,
    input: string,
    [text, stamp]: readonly [string, string],
  ): Promise<Saved> => {
    const there = await read(path, input);
    const now = stampOf(there);
    return now !== stamp && there !== text
      ? { how: 'changed', theirs: there ?? '', stamp: now }
      : written(path, text);
  };
  return {
    open: async () => {
      const job = await read(jobFile, 'job');
      const shop = await read(shopFile(), 'shop');
      return {
        job: job ?? EMPTY_JOB,
        shop: shop ?? null,
        name: basename(jobFile),
        stamp: stampOf(job),
        shopStamp: stampOf(shop),
      };
    },
    saveJob: (text, stamp) => save(jobFile, 'job', [text, stamp]),
    saveShop: (text, stamp) => save(shopFile(), 'shop', [text, stamp]),
  };
};

const read = async (path: string, input: string): Promise<string | undefined> =>
  existsSync(path)
    ? readTextFile(path, {
        input,
        allowed: 'a YAML or JSON file',
        tooLarge: 'make several of it',
        mostBytes: LARGEST_BYTES,
      })
    : undefined;

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
