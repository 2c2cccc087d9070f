import { dirname, join } from 'node:path';
import { ALL_FAMILIES } from '../../../templates/index.ts';
import { DEFAULT_SHOP } from '../../data/shop-default.ts';
import { readJob } from '../../jobfile/read.ts';
import { shown } from '../../forms/given.ts';
import { type ReadyJob, shopOfJob } from '../../use/job/ready-job.ts';
import { WrongInput } from '../failure.ts';
import { readTextFile } from '../read-text-file.ts';
import { findShopFile, readShopFile, shopPlaces } from '../shop-file.ts';

/** Limit on the size of a job file, enough for some ten thousand parts. */
const LARGEST_BYTES = 5_000_000;

export interface LoadedJob extends ReadyJob {
  readonly shopFile: string | undefined;
}

/**
 * Reads a job file and its shop: the one that `askedShop` or the file names, otherwise the one
 * beside the job or the user's own. `onShop` is told the places of the shop file before they are
 * read. Throws `WrongInput` with every problem.
 */
export const loadJob = async (
  path: string,
  askedShop: string | undefined,
  onShop: (places: readonly string[]) => void = () => undefined,
): Promise<LoadedJob> => {
  const text = await readTextFile(path, {
    input: 'job',
    allowed: 'a YAML or JSON file of a job',
    tooLarge: 'make several jobs of it',
    mostBytes: LARGEST_BYTES,
  });
  const families = new Map(
    await Promise.all(
      [...ALL_FAMILIES].map(async ([name, load]) => [name, (await load()).default] as const),
    ),
  );
  const read = readJob(text, families);
  if (!read.ok) throw new WrongInput(read.problems);
  const named = askedShop ?? shopBeside(path, read.job.shop);
  onShop(shopPlaces(named, path));
  const shopFile = findShopFile(named, path);
  return {
    job: read.job,
    families,
    shop: shopOfJob(read.job, shopFile === undefined ? DEFAULT_SHOP : await readShopFile(shopFile)),
    shopFile,
  };
};

/** The shop file that a job names. Nothing in a file may refer outside its folder. */
const shopBeside = (job: string, named: string | undefined): string | undefined => {
  if (named === undefined) return undefined;
  const isBelow = !/^(?:[/\\]|[A-Za-z]:)/.test(named) && !named.split(/[/\\]/).includes('..');
  if (isBelow) return join(dirname(job), named);
  throw new WrongInput([
    {
      input: 'shop',
      given: shown(named),
      allowed: 'a file in the folder of the job file, or below',
      mend: 'name it on the command line with --shop',
    },
  ]);
};
