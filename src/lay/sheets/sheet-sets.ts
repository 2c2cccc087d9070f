import { SAME_COST } from './better.ts';
import type { Layout, Sheet } from '../layout.ts';
import { costOf, pieceOn, usedSheets } from './aim.ts';
import type { StockTask } from './stock-task.ts';

/** A choice of whole sheets, and what they count. */
export interface SheetSet {
  readonly sheets: readonly number[];
  readonly cost: number;
  readonly bought: number;
}

/** No more choices than this are kept, and so many steps are gone in looking for them. */
const MOST_SETS = 500;
const MOST_STEPS = 20_000;

/** Choices of sheets, and whether there are no others. */
export interface SheetSets {
  readonly sets: readonly SheetSet[];
  readonly areAll: boolean;
}

/**
 * All choices of whole sheets that count less than those of a layout and whose area, with the
 * remnants', is not less than that of the metal on them; the dearest first, as parts find room there
 * soonest.
 */
export const cheaperSets = (stock: StockTask, layout: Layout): SheetSets => {
  const used = usedSheets(layout).filter((k) => !pieceOn(stock, k).isRemnant);
  const now = setOf(stock, used);
  const needed = metalArea(stock, layout) - remnantsArea(stock);
  const kinds = wholeKinds(stock);
  const sets: SheetSet[] = [];
  let steps = 0;
  const choose = (kind: number, chosen: SheetSet, area: number): void => {
    const own = kinds[kind];
    if (own === undefined) {
      if (area >= needed) sets.push(chosen);
      return;
    }
    let [set, total] = [chosen, area];
    for (let n = 0; n <= own.length && isCheaper(set, now); n++) {
      if (++steps > MOST_STEPS || sets.length >= MOST_SETS) return;
      choose(kind + 1, set, total);
      if (n === own.length) return;
      const next = own[n] as number;
      set = withOne(stock, set, next);
      total += areaOfSheets(stock, [next]);
    }
  };
  choose(0, NO_SHEETS, 0);
  return {
    sets: sets.toSorted((x, y) => y.cost - x.cost || y.bought - x.bought),
    areAll: steps <= MOST_STEPS && sets.length < MOST_SETS,
  };
};

const withOne = (stock: StockTask, set: SheetSet, sheet: number): SheetSet => ({
  sheets: [...set.sheets, sheet],
  cost: set.cost + costOf(stock, sheet),
  bought: set.bought + (pieceOn(stock, sheet).count === undefined ? 1 : 0),
});

const isCheaper = (a: SheetSet, b: SheetSet): boolean =>
  a.cost < b.cost - SAME_COST || (a.cost <= b.cost + SAME_COST && a.bought < b.bought);

const setOf = (stock: StockTask, sheets: readonly number[]): SheetSet =>
  sheets.reduce<SheetSet>((set, sheet) => withOne(stock, set, sheet), NO_SHEETS);

const NO_SHEETS: SheetSet = { sheets: [], cost: 0, bought: 0 };

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
