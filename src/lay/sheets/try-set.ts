import { type Effort, putBack, separate } from '../separate.ts';
import { type Search, took, widen } from './search.ts';
import { remnantSheets, type SheetSet } from './sheet-sets.ts';
import { numbersOf, throwOn } from './throw-on.ts';

const LONG: Effort = { idleRounds: 60, idleAttempts: 2 };

/** Attempts on one choice of sheets, each from the last one with some parts thrown elsewhere. */
const TRIES = 3;

/** Tries to lay everything on other whole sheets, and all remnants. */
export const trySet = (search: Search, { sheets }: SheetSet): boolean => {
  const { layout, stock } = search;
  putBack(layout, search.best);
  widen(search);
  const open = [...remnantSheets(stock), ...sheets];
  layout.open.splice(0, Infinity, ...open);
  const isOpen = new Set(open);
  const homeless = numbersOf(layout).filter(
    (i) => (layout.sheet[i] as number) >= 0 && !isOpen.has(layout.sheet[i] as number),
  );
  return throwOn(search, homeless, open) && separated(search, open);
};

/** Tries to lay one more of those that are left. */
export const tryLeft = (search: Search): boolean => {
  const { layout, random, stock } = search;
  putBack(layout, search.best);
  widen(search);
  const left = numbersOf(layout).filter((i) => layout.sheet[i] === -1);
  const first = left.filter(
    (i) => stock.request.parts[stock.partOf[i] as number]?.isFirst === true,
  );
  const among = first.length > 0 ? first : left;
  const open = layout.task.sheets.map((_, k) => k);
  layout.open.splice(0, Infinity, ...open);
  const one = among[random.below(among.length)];
  return one !== undefined && throwOn(search, [one], open) && separated(search, open);
};

const separated = (search: Search, open: readonly number[]): boolean => {
  const { layout, random, mayGoOn } = search;
  for (let tries = 0; tries < TRIES && mayGoOn(); tries++) {
    if (separate(layout, random, LONG, mayGoOn).isApart) return took(search);
    const laid = numbersOf(layout).filter((i) => (layout.sheet[i] as number) >= 0);
    const some = [0, 1].map(() => laid[random.below(laid.length)] as number);
    if (!throwOn(search, some, open)) return false;
  }
  return false;
};
