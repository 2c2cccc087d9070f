import { DEFAULT_SHOP } from '../../data/shop-default.ts';
import { isAssumedIn, SHOP_PARTS, type Shop, type ShopPart } from '../../model/shop.ts';
import { shopEntries, sourcesOf, writeShop } from '../../shop/write.ts';
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
 * mistake is wrong input. JSON: `{"file","shop","sources","basis","from"}`; `file` is `null` for
 * the built-in shop, `sources` gives `{"basis","source"}` by path for every figure that is not the
 * shop's own, `basis` for every figure of a machine whether it is measured or assumed, and `from`
 * for every part whether the file has it.
 */
export const shop = async (
  asked: string | undefined,
  json: boolean,
  { out }: Console,
): Promise<number> => {
  const file = findShopFile(asked, undefined);
  const found = file === undefined ? DEFAULT_SHOP : await readShopFile(file);
  const { entries, ...told } = shopEntries(found, sourcesOf(found));
  if (json)
    out(JSON.stringify({ file: file ?? null, shop: entries, ...told, from: fromOf(found) }));
  else out(writeShop({ entries, ...told }, headingOf(file, found)).trimEnd());
  return EXIT.made;
};

/** Where every part of a shop is from. */
const fromOf = (found: Shop): Readonly<Record<ShopPart, 'file' | 'built-in'>> =>
  Object.fromEntries(
    SHOP_PARTS.map((part) => [part, isAssumedIn(found, part) ? 'built-in' : 'file']),
  ) as Readonly<Record<ShopPart, 'file' | 'built-in'>>;

const headingOf = (file: string | undefined, found: Shop): string => {
  if (file === undefined)
    return `The built-in shop. blankwright shop --ask makes it your own, or save this as shop.yaml beside a job, or as ${userShopFile()}.`;
  const [own, assumed] = [false, true].map((how) =>
    SHOP_PARTS.filter((part) => isAssumedIn(found, part) === how).join(', '),
  );
  return [
    `${file}, which is in order. Lengths in mm, angles in degrees.`,
    ...(assumed === '' ? [] : [`From the file: ${own}.`, `As in the built-in shop: ${assumed}.`]),
  ].join('\n ');
};

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
