import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import type { MakeOptions } from '../../src/use/make/make-parts.ts';
import type { Shop } from '../../src/model/shop.ts';

/** The built-in shop as one that folds nothing and sends everything out to be cut by laser. */
export const SENDS_OUT: Shop = {
  ...DEFAULT_SHOP,
  machines: [],
  cutters: DEFAULT_SHOP.cutters.filter((c) => c.process === 'laser'),
};

/**
 * Makes parts for a shop without folding machines: what the planner says of them has tests of its
 * own.
 */
export const UNPLANNED: MakeOptions = { cutOnly: false, dxfVersion: 'r2000', shop: SENDS_OUT };
