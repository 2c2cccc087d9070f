import { existsSync } from 'node:fs';
import { dirname, basename } from 'node:path';
import type { ShopBend } from '../model/shop.ts';
import { shopWithBends } from '../use/calibrate/shop-with-bends.ts';
import { saveAll } from './save.ts';
import { readShopText } from './shop-file.ts';

/** Writes measured bends into a shop file, which is made where there is none yet. */
export const saveBends = async (path: string, fresh: readonly ShopBend[]): Promise<string> => {
  const contents = shopWithBends(existsSync(path) ? await readShopText(path) : undefined, fresh);
  // The file was read and checked before: it is the user's own and meant to be written.
  const [saved] = saveAll(dirname(path), [{ name: basename(path), contents, mark: '' }], true);
  return saved as string;
};
