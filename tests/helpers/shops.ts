import { DEFAULT_HANDOVER } from '../../src/model/handover.ts';
import type { Cutter, Shop } from '../../src/model/shop.ts';

/** A cutter that cuts anything, of any size, with a line without width. */
export const PERFECT_CUTTER: Cutter = {
  name: 'perfect',
  process: 'laser',
  thickness: { from: 0, to: 100 },
  bed: { length: 1e5, width: 1e5 },
  kerf: [{ thickness: 1, kerf: 0 }],
  leastHole: [{ mm: 0 }],
  leastSlot: [{ mm: 0 }],
  leastWeb: [{ mm: 0 }],
  leastEdge: [{ mm: 0 }],
  warpsUpTo: 0,
  marks: true,
  import: { layers: 'kept', foldLines: 'in', curves: 'arcs', units: 'mm' },
};

/** A shop of a user's own with one cutter: `PERFECT_CUTTER` with the given changes. */
export const shopWith = (cutter: Partial<Cutter> = {}, rest: Partial<Shop> = {}): Shop => ({
  name: 'test shop',
  isAssumed: false,
  machines: [],
  cutters: [{ ...PERFECT_CUTTER, ...cutter }],
  sheets: [],
  remnants: [],
  marking: { folds: 'none', face: 'inside', drilled: 'crosses' },
  handover: DEFAULT_HANDOVER,
  weldGap: 0.5,
  bends: [],
  ...rest,
});
