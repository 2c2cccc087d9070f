import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import type { MakeOptions } from '../../src/use/make/make-parts.ts';
import type { Shop } from '../../src/model/shop.ts';

/**
 * The built-in shop, changed so that it folds nothing and sends everything out to be cut by laser.
 */
export const SENDS_OUT: Shop = {
  ...DEFAULT_SHOP,
  machines: [],
  cutters: DEFAULT_SHOP.cutters.filter((c) => c.process === 'laser'),
};

/** Options of a shop without folding machines, since what the planner says has tests of its own. */
export const UNPLANNED: MakeOptions = { cutOnly: false, dxfVersion: 'r2000', shop: SENDS_OUT };
