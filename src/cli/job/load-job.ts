import { dirname, join } from 'node:path';
import { FAMILIES } from '../../../templates/index.ts';
import { DEFAULT_SHOP } from '../../data/shop-default.ts';
import { readJob } from '../../jobfile/read.ts';
import type { JobFile } from '../../jobfile/job-file.ts';
import type { Template } from '../../input/template.ts';
import type { Shop } from '../../model/shop.ts';
import { WrongInput } from '../failure.ts';
import { readTextFile } from '../read-text-file.ts';
import { findShopFile, readShopFile } from '../shop-file.ts';

/** Some ten thousand parts. */
const LARGEST_BYTES = 5_000_000;

export interface LoadedJob {
  readonly job: JobFile;
  readonly families: ReadonlyMap<string, Template>;
  readonly shop: Shop;
  readonly shopFile: string | undefined;
}

/** Reads a job file and the shop that it, or `askedShop`, names; beside the job or the user's own otherwise. Throws `WrongInput` with every problem. */
export const loadJob = async (path: string, askedShop: string | undefined): Promise<LoadedJob> => {
  const text = await readTextFile(path, { input: 'job', allowed: 'a YAML or JSON file of a job', tooLarge: 'make several jobs of it', mostBytes: LARGEST_BYTES });
  const families = new Map(await Promise.all([...FAMILIES].map(async ([name, load]) => [name, (await load()).default] as const)));
  const read = readJob(text, families);
  if (!read.ok) throw new WrongInput(read.problems);
  const named = read.job.shop === undefined ? undefined : join(dirname(path), read.job.shop);
  const shopFile = findShopFile(askedShop ?? named, path);
  return { job: read.job, families, shop: shopFile === undefined ? DEFAULT_SHOP : await readShopFile(shopFile), shopFile };
};
