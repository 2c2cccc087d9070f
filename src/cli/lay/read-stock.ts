import { dirname, join } from 'node:path';
import type { Shop } from '../../model/shop.ts';
import type { StockPiece } from '../../model/stock.ts';
import type { StockDrawings } from '../../stock/stock-of.ts';
import { kindAt } from '../disk.ts';
import { WrongInput } from '../failure.ts';
import { bytesOfDxf } from '../read-text-file.ts';

/** The DXF files that the remnants of a shop name; those that are not there are left out. */
export const readDrawings = (shopFile: string, { remnants }: Shop): StockDrawings => {
  const names = new Set(remnants.flatMap(({ dxf }) => (dxf === undefined ? [] : [dxf])));
  return new Map(
    [...names].flatMap((name): [string, Uint8Array][] => {
      const path = join(dirname(shopFile), name);
      return kindAt(path) === 'nothing' ? [] : [[name, bytesOfDxf(path)]];
    }),
  );
};

/**
 * The stock of a shop, with the DXF files of its remnants, which lie beside the shop file; of the
 * built-in shop, which has no file, its sheets. What is wrong with a file is a `WrongInput`.
 */
export const readStock = async (
  shopFile: string | undefined,
  shop: Shop,
): Promise<readonly StockPiece[]> => {
  // The reader of DXF files is loaded by those who have one.
  const { stockOf } = await import('../../stock/stock-of.ts');
  const read = stockOf(shop, shopFile === undefined ? new Map() : readDrawings(shopFile, shop));
  if (read.ok) return read.stock;
  throw new WrongInput(
    read.problems.map((p) => ({ ...p, given: `${p.given}, in ${shopFile ?? 'the shop'}` })),
  );
};
