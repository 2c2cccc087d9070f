import { existsSync } from 'node:fs';
import { dirname, basename } from 'node:path';
import { Document, isSeq, parseDocument } from 'yaml';
import { DEFAULT_SHOP, DEFAULT_SHOP_SOURCES } from '../data/shop-default.ts';
import type { ShopBend } from '../model/shop.ts';
import { shopEntries, writeShop } from '../shop/write.ts';
import { readShopFile } from './shop-file.ts';
import { readTextFile } from './read-text-file.ts';
import { saveAll } from './save.ts';

/**
 * Writes measured bends into a shop file, everything else in it as it was, comments too. Where
 * there is no file yet, the built-in shop is written with them.
 */
export const saveBends = async (
  path: string,
  change: (known: readonly ShopBend[]) => readonly ShopBend[],
): Promise<string> => {
  const text = existsSync(path)
    ? await changed(path, change)
    : writeShop(shopEntries({ ...DEFAULT_SHOP, bends: change([]) }, DEFAULT_SHOP_SOURCES), HEADING);
  // Read and checked before: it is the user's own file, and meant to be written.
  const [saved] = saveAll(
    dirname(path),
    [{ name: basename(path), contents: text, mark: '' }],
    true,
  );
  return saved as string;
};

const HEADING = 'The built-in shop with your own bends. Make the rest your own too.';

const changed = async (
  path: string,
  change: (known: readonly ShopBend[]) => readonly ShopBend[],
): Promise<string> => {
  const shop = await readShopFile(path);
  const text = await readTextFile(path, {
    input: 'shop',
    allowed: 'a shop file',
    tooLarge: 'describe one shop only',
  });
  const document: Document = parseDocument(text);
  const rows = document.createNode(change(shop.bends));
  if (isSeq(rows)) for (const row of rows.items) (row as { flow?: boolean }).flow = true;
  document.set('bends', rows);
  return document.toString({ lineWidth: 0 });
};
