import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import type { MakeOptions } from '../../src/job.ts';

/** Makes parts for a shop without folding machines: what the planner says of them has tests of its own. */
export const UNPLANNED: MakeOptions = { cutOnly: false, dxfVersion: 'r2000', shop: { ...DEFAULT_SHOP, machines: [] } };
