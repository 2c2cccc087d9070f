import { Document, isSeq, parseDocument } from 'yaml';
import { withBends } from '../../calibrate/calibrate.ts';
import type { Shop, ShopBend } from '../../model/shop.ts';
import { layOut } from '../../shop/write.ts';

/** A shop file as it is, and the shop that was read from it. */
export interface KnownShop {
  readonly text: string;
  readonly shop: Shop;
}

/**
 * The text of a shop file with measured bends in it, everything else unchanged, comments too. Where
 * there is no file yet, it has the bends alone, and all else stays as in the built-in shop.
 */
export function shopWithBends(known: KnownShop | undefined, fresh: readonly ShopBend[]): string {
  const document: Document = known === undefined ? new Document({}) : parseDocument(known.text);
  if (known === undefined) document.commentBefore = HEADING;
  const rows = document.createNode(withBends(known?.shop.bends ?? [], fresh));
  document.set('bends', rows);
  if (known === undefined) layOut(document);
  else if (isSeq(rows)) for (const row of rows.items) (row as { flow?: boolean }).flow = true;
  return document.toString({ lineWidth: 0 });
}

const HEADING =
  ' Your own bends. All else is as in the built-in shop: blankwright shop --ask makes it your own too.';
