import { existsSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, isAbsolute, join } from 'node:path';
import type { Shop } from '../model/shop.ts';
import { WrongInput } from './failure.ts';
import { readTextFile } from './read-text-file.ts';

const NAME = 'shop.yaml';

/**
 * Path of the user's own shop file, which need not exist: in the config folder of the XDG base
 * directory specification.
 */
export const userShopFile = (): string => {
  const asked = process.env['XDG_CONFIG_HOME'];
  return join(
    asked !== undefined && isAbsolute(asked) ? asked : join(homedir(), '.config'),
    'blankwright',
    NAME,
  );
};

/**
 * Whether the file has any contents: `blankwright shop > shop.yaml` finds the empty file that the
 * shell has just made, which does not count.
 */
const isFilled = (path: string): boolean => existsSync(path) && statSync(path).size > 0;

/**
 * Places where a shop file is looked for: where it is asked for, or else beside the job, and then
 * the user's own place.
 */
export const shopPlaces = (
  asked: string | undefined,
  job: string | undefined,
): readonly string[] =>
  asked === undefined
    ? [join(job === undefined ? '.' : dirname(job), NAME), userShopFile()]
    : [asked];

/**
 * The shop file to use: the one asked for, or the first that exists; `undefined` when there is
 * none.
 */
export const findShopFile = (
  asked: string | undefined,
  job: string | undefined,
): string | undefined => asked ?? shopPlaces(asked, job).find(isFilled);

/** Reads a shop file. Everything that is wrong with it is a `WrongInput`, all of it at once. */
export const readShopFile = async (path: string): Promise<Shop> => (await readShopText(path)).shop;

/** The shop and the text of its file. */
export const readShopText = async (
  path: string,
): Promise<{ readonly text: string; readonly shop: Shop }> => {
  const text = await readTextFile(path, {
    input: 'shop',
    allowed: 'a YAML or JSON file that describes a shop',
    tooLarge: 'describe one shop only',
  });
  const { readShop } = await import('../shop/read.ts');
  const read = readShop(text);
  if (read.ok) return { text, shop: read.shop };
  throw new WrongInput(
    read.problems.map((problem) => ({ ...problem, given: `${problem.given} in ${path}` })),
  );
};
