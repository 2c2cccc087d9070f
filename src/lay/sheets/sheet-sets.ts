import type { Layout, Sheet } from '../layout.ts';
import { costOf, pieceOn, usedSheets } from './aim.ts';
import type { StockTask } from './stock-task.ts';

/** A choice of whole sheets, and what they count. */
export interface SheetSet {
  readonly sheets: readonly number[];
  readonly cost: number;
  readonly bought: number;
}

/** No more choices than this are gone through. */
const MOST_SETS = 500;

/**
 * All choices of whole sheets that count less than those of a layout and whose area, with the
 * remnants', is not less than that of the metal on them; the dearest first, as parts find room there
 * soonest. Whether there are no more of them is told too.
 */
export const cheaperSets = (
  stock: StockTask,
  layout: Layout,
): { readonly sets: readonly SheetSet[]; readonly areAll: boolean } => {
  const used = usedSheets(layout).filter((k) => !pieceOn(stock, k).isRemnant);
  const now = setOf(stock, used);
  const needed = metalArea(stock, layout) - remnantsArea(stock);
  const kinds = wholeKinds(stock);
  const sets: SheetSet[] = [];
  let areAll = true;
  const choose = (kind: number, sheets: readonly number[]): void => {
    const set = setOf(stock, sheets);
    if (!isCheaper(set, now)) return;
    const own = kinds[kind];
    if (own === undefined) {
      if (areaOfSheets(stock, sheets) < needed) return;
      if (sets.length < MOST_SETS) sets.push(set);
      else areAll = false;
      return;
    }
    // Sheets that count nothing would never end the row.
    const most = Math.min(own.length, used.length + (kinds.length > 1 ? used.length : 0));
    for (let n = 0; n <= most && areAll; n++) choose(kind + 1, [...sheets, ...own.slice(0, n)]);
  };
  choose(0, []);
  return {
    sets: sets.toSorted((a, b) => b.cost - a.cost || b.bought - a.bought),
    areAll,
  };
};

const isCheaper = (a: SheetSet, b: SheetSet): boolean =>
  a.cost < b.cost - NOISE || (a.cost <= b.cost + NOISE && a.bought < b.bought);

const NOISE = 1e-9;

const setOf = (stock: StockTask, sheets: readonly number[]): SheetSet => ({
  sheets,
  cost: sheets.reduce((sum, k) => sum + costOf(stock, k), 0),
  bought: sheets.filter((k) => pieceOn(stock, k).count === undefined).length,
});

/** The whole sheets of each piece of stock. */
export const wholeKinds = (stock: StockTask): readonly (readonly number[])[] => {
  const kinds = new Map<number, number[]>();
  for (const [k, piece] of stock.pieceOf.entries())
    if (!pieceOn(stock, k).isRemnant) kinds.set(piece, [...(kinds.get(piece) ?? []), k]);
  return [...kinds.values()];
};

export const remnantSheets = (stock: StockTask): readonly number[] =>
  stock.pieceOf.flatMap((_, k) => (pieceOn(stock, k).isRemnant ? [k] : []));

/** Area of the rooms, as rectangles: no less than what parts may take of them. */
const areaOfSheets = ({ task }: StockTask, sheets: readonly number[]): number =>
  sheets.reduce((sum, k) => {
    const { length, width } = task.sheets[k] as Sheet;
    return sum + length * width;
  }, 0);

const remnantsArea = (stock: StockTask): number => areaOfSheets(stock, remnantSheets(stock));

const metalArea = (stock: StockTask, layout: Layout): number =>
  stock.partOf.reduce(
    (sum, part, i) => ((layout.sheet[i] as number) < 0 ? sum : sum + (stock.areas[part] as number)),
    0,
  );
