import { DEFAULT_SHOP, DEFAULT_SHOP_SOURCES } from '../../data/shop-default.ts';
import { shopEntries, writeShop } from '../../shop/write.ts';
import type { Console } from '../console.ts';
import { EXIT } from '../failure.ts';
import { type FlagSpecs, textOf } from '../flags.ts';
import { findShopFile, readShopFile, userShopFile } from '../shop-file.ts';
import { flagsOf } from '../flags-of.ts';
import type { RunCommand } from './index.ts';

export const SHOP_FLAGS = {
  shop: {
    type: 'string',
    describe:
      "Shop file; else shop.yaml beside the job, then the user's own, then the built-in shop",
  },
} as const satisfies FlagSpecs;

/**
 * `shop`: the shop that parts are checked against, in the form of a shop file. A file with a
 * mistake is wrong input. JSON: `{"file","shop","sources"}`; `file` is `null` for the built-in
 * shop, and `sources` gives `{"basis","source"}` by path for every figure that is not the shop's
 * own.
 */
export const shop = async (
  asked: string | undefined,
  json: boolean,
  { out }: Console,
): Promise<number> => {
  const file = findShopFile(asked, undefined);
  const found = file === undefined ? DEFAULT_SHOP : await readShopFile(file);
  const taken = shopEntries(found, file === undefined ? DEFAULT_SHOP_SOURCES : {});
  if (json)
    out(JSON.stringify({ file: file ?? null, shop: taken.entries, sources: taken.sources }));
  else out(writeShop(taken, headingOf(file)).trimEnd());
  return EXIT.made;
};

const headingOf = (file: string | undefined): string =>
  file === undefined
    ? `The built-in shop. Save this as shop.yaml beside a job, or as ${userShopFile()}, and make it your own.`
    : `${file}, which is in order. Lengths in mm, angles in degrees.`;

export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, {
    usage: 'shop [--shop FILE]',
    flags: SHOP_FLAGS,
    words: 1,
  });
  return flags === undefined
    ? EXIT.made
    : shop(textOf(flags, 'shop'), flags['json'] === true, console);
};
