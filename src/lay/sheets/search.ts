import type { Layout } from '../layout.ts';
import type { Random } from '../random.ts';
import { keep, type Kept, type MayGoOn, putBack } from '../separate.ts';
import { aimOf } from './aim.ts';
import { isBetter } from './better.ts';
import type { Aim } from './request.ts';
import { cheaperSets, type SheetSets } from './sheet-sets.ts';
import type { StockTask } from './stock-task.ts';

/** The layout as it is searched, and the best one so far. */
export interface Search {
  readonly stock: StockTask;
  readonly layout: Layout;
  readonly random: Random;
  readonly mayGoOn: MayGoOn;
  readonly onBetter: (aim: Aim) => void;
  best: Kept;
  aim: Aim;
}

/** Keeps the layout when it is better than the best one so far. */
export const took = (search: Search): boolean => {
  const aim = aimOf(search.stock, search.layout);
  if (!isBetter(aim, search.aim)) return false;
  search.aim = aim;
  search.best = keep(search.layout);
  search.onBetter(aim);
  return true;
};

/** All sheets as large as they are. */
export const widen = ({ layout: { task, lengths, widths } }: Search): void => {
  task.sheets.forEach((sheet, k) => {
    lengths[k] = sheet.length;
    widths[k] = sheet.width;
  });
};

/** The cheaper choices of sheets than those of the best layout, gone through once for each. */
export const setsBelow = (search: Search): SheetSets => {
  const known = KNOWN.get(search.best);
  if (known !== undefined) return known;
  putBack(search.layout, search.best);
  const sets = cheaperSets(search.stock, search.layout);
  KNOWN.set(search.best, sets);
  return sets;
};

const KNOWN = new WeakMap<Kept, SheetSets>();

/** Whether a part that would go on an empty sheet is not laid in the best layout. */
export const isAnyOut = ({ best, layout }: Search): boolean =>
  best.sheet.subarray(0, layout.count).some((k) => k < 0);
