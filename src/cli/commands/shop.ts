import { existsSync, statSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { DEFAULT_SHOP } from '../../data/shop-default.ts';
import { isAssumedIn, SHOP_PARTS, type Shop, type ShopPart } from '../../model/shop.ts';
import { shopEntries, sourcesOf, writeShop } from '../../shop/write.ts';
import { readShop } from '../../shop/read.ts';
import { askShop } from '../ask-shop.ts';
import type { Console } from '../console.ts';
import { standardDialogue } from '../dialogue.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { type FlagSpecs, textOf } from '../flags.ts';
import { readStock } from '../lay/read-stock.ts';
import { saveAll } from '../save.ts';
import { findShopFile, readShopFile, readShopText, userShopFile } from '../shop-file.ts';
import { flagsOf } from '../flags-of.ts';
import type { RunCommand } from './index.ts';

export const SHOP_FLAGS = {
  shop: {
    type: 'string',
    describe:
      "Shop file; else shop.yaml beside the job, then the user's own, then the built-in shop",
  },
  ask: {
    type: 'boolean',
    describe:
      'Ask for the machines, with one test fold each, and for cutters and sheets, and write what is answered',
  },
} as const satisfies FlagSpecs;

/** The shop of a file, whose remnants' drawings are looked at too; the built-in one without. */
const shopIn = async (file: string | undefined): Promise<Shop> => {
  if (file === undefined) return DEFAULT_SHOP;
  const shop = await readShopFile(file);
  if (shop.remnants.some(({ dxf }) => dxf !== undefined)) await readStock(file, shop);
  return shop;
};

/**
 * `shop`: the shop that parts are checked against, in the form of a shop file. A file with a
 * mistake is wrong input. JSON: `{"file","shop","sources","basis","from","saved"}`; `file` is
 * `null` for the built-in shop, `sources` gives `{"basis","source"}` by path for every figure that
 * is not the shop's own, `basis` for every figure of a machine whether it is measured or assumed,
 * `from` for every part whether the file has it, and `saved` is the file that was just written.
 */
const printShop = async (
  file: string | undefined,
  saved: string | null,
  { out }: Console,
): Promise<void> => {
  const found = await shopIn(file);
  const { entries, ...told } = shopEntries(found, sourcesOf(found));
  const printed = { file: file ?? null, shop: entries, ...told, from: fromOf(found), saved };
  out(JSON.stringify(printed));
};

const writeOut = async (file: string | undefined, { out }: Console): Promise<void> => {
  const found = await shopIn(file);
  out(writeShop(shopEntries(found, sourcesOf(found)), headingOf(file, found)).trimEnd());
};

/**
 * Asks for the shop at the terminal and writes its file: the one asked for, or the one that counts,
 * or `shop.yaml` here where there is none. Returns its path; `null` where nothing was written.
 */
const askFor = async (asked: string | undefined): Promise<string | null> => {
  const path = findShopFile(asked, undefined) ?? 'shop.yaml';
  const known = existsSync(path) && statSync(path).size > 0 ? await readShopText(path) : undefined;
  const dialogue = standardDialogue();
  const contents = await askShop({ path, known }, dialogue);
  dialogue.close();
  if (contents === undefined) return null;
  assertReads(contents, path);
  const [saved] = saveAll(dirname(path), [{ name: basename(path), contents, mark: '' }], true);
  return saved as string;
};

/** Answers are checked one by one; that they go together with what the file had is checked here. */
const assertReads = (contents: string, path: string): void => {
  const read = readShop(contents);
  if (!read.ok)
    throw new WrongInput(
      read.problems.map((p) => ({ ...p, given: `${p.given} in what would be ${path}` })),
    );
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
    SHOP_PARTS.filter((part) => part !== 'name' && isAssumedIn(found, part) === how).join(', '),
  );
  return [
    `${file}, which is in order. Lengths in mm, angles in degrees.`,
    ...(assumed === '' ? [] : [`From the file: ${own}.`, `As in the built-in shop: ${assumed}.`]),
  ].join('\n ');
};

export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, {
    usage: 'shop [--ask] [--shop FILE]',
    flags: SHOP_FLAGS,
    words: 1,
  });
  if (flags === undefined) return EXIT.made;
  const [asked, isJson] = [textOf(flags, 'shop'), flags['json'] === true];
  const isAsked = flags['ask'] === true;
  const saved = isAsked ? await askFor(asked) : null;
  const named = saved ?? findShopFile(asked, undefined);
  // A file that was asked for, and then not written, is not there.
  const file = isAsked && named !== undefined && !existsSync(named) ? undefined : named;
  if (isJson) await printShop(file, saved, console);
  else if (!isAsked) await writeOut(file, console);
  else if (saved !== null)
    console.out(
      `Written to ${saved}. blankwright shop prints the whole, each figure with its basis.`,
    );
  return isAsked && saved === null ? EXIT.stopped : EXIT.made;
};
