import { Document, isSeq, parseDocument } from 'yaml';
import { withBends } from '../../calibrate/calibrate.ts';
import { DEFAULT_SHOP, DEFAULT_SHOP_SOURCES } from '../../data/shop-default.ts';
import type { Shop, ShopBend } from '../../model/shop.ts';
import { shopEntries, writeShop } from '../../shop/write.ts';

/** A shop file as it is, and the shop that was read from it. */
export interface KnownShop {
  readonly text: string;
  readonly shop: Shop;
}

/**
 * The text of a shop file with measured bends in it, everything else unchanged, comments too. Where
 * there is no file yet, it is the built-in shop with the bends.
 */
export function shopWithBends(known: KnownShop | undefined, fresh: readonly ShopBend[]): string {
  if (known === undefined) {
    const shop = { ...DEFAULT_SHOP, bends: withBends([], fresh) };
    return writeShop(shopEntries(shop, DEFAULT_SHOP_SOURCES), HEADING);
  }
  const document: Document = parseDocument(known.text);
  const rows = document.createNode(withBends(known.shop.bends, fresh));
  if (isSeq(rows)) for (const row of rows.items) (row as { flow?: boolean }).flow = true;
  document.set('bends', rows);
  return document.toString({ lineWidth: 0 });
}

const HEADING = 'The built-in shop with your own bends. Make the rest your own too.';
