import { bySize, layGreedily } from '../greedy.ts';
import { emptyLayout, type Layout } from '../layout.ts';
import { randomFrom } from '../random.ts';
import { keep, putBack } from '../separate.ts';
import type { Shape } from '../shapes.ts';
import { type KnownLattices, layLattices, manyEqual } from './lay-lattices.ts';
import { aimOf, usedSheets } from './aim.ts';
import { makeRoom } from './make-room.ts';
import { proveFew } from './prove-few.ts';
import type { Aim, LaidOnStock, LayRequest, PartToLay } from './request.ts';
import { laidOnStock } from './result.ts';
import { remnantSheets, type SheetSet, wholeKinds } from './sheet-sets.ts';
import { isAnyOut, type Search, setsBelow, took } from './search.ts';
import { stockTask } from './stock-task.ts';
import { tryLeft, trySet } from './try-set.ts';

export interface LaySearch {
  readonly seed: number;
  /** Asked before each step with the number of steps made so far. */
  readonly mayGoOn: (steps: number) => boolean;
  /** Told whenever a better layout is found. */
  readonly onBetter?: ((aim: Aim) => void) | undefined;
}

/**
 * Lays parts on sheets and remnants, as well as is found until it may not go on: first so that all
 * are laid, then on as few or as cheap whole sheets as can be, then with most of the metal on
 * remnants, then so that a large clean rectangle is left, then with short ways (`Aim`). It begins
 * with greedy layouts; a few rectangles are decided exactly; then it tries cheaper choices of
 * sheets, where parts may overlap until they are separated, and presses what lies on a sheet
 * together. What is done at which step depends on the seed alone, never on the time. It ends by
 * itself when nothing has got better for long.
 */
export const layOnStock = (request: LayRequest, search: LaySearch): LaidOnStock => {
  const stock = stockTask(request);
  const layout = emptyLayout(stock.task);
  let steps = 0;
  const state: Search = {
    stock,
    layout,
    random: randomFrom(search.seed),
    mayGoOn: () => search.mayGoOn(steps) && ++steps > 0,
    onBetter: (aim) => search.onBetter?.(aim),
    best: keep(layout),
    aim: aimOf(stock, layout),
  };
  if (layout.count > 0) begin(state);
  const isProved = layout.count === 0 || improve(state);
  putBack(layout, state.best);
  return laidOnStock(stock, layout, state.aim, isProved, steps);
};

/**
 * First layouts: parts that there are many of as lattices, then all greedily, in several orders of the
 * parts and of the whole sheets; the first one of each always.
 */
const begin = (search: Search): void => {
  const { stock, layout } = search;
  const whole = wholeKinds(stock);
  const remnants = remnantSheets(stock);
  const firsts =
    whole.length < 2 ? [whole] : whole.map((kind) => [kind, ...whole.filter((k) => k !== kind)]);
  const orders = firsts.map((kinds) => [...remnants, ...kinds.flat()]);
  const isLong = layout.count > LONG_GREEDY;
  const mayGoOn = isLong ? search.mayGoOn : undefined;
  const greedy = orders.flatMap((sheets) =>
    ordersOf(search).map((order) => () => void layGreedily(layout, order, sheets, mayGoOn)),
  );
  const lattices = withLattices(search, orders);
  const always = new Set([
    lattices[0],
    ...(isLong && lattices.length > 0 ? [] : greedy.slice(0, 1)),
  ]);
  for (const layOut of [...lattices, ...greedy]) {
    if (!always.has(layOut) && !search.mayGoOn()) continue;
    for (let i = 0; i < layout.count; i++) putAway(layout, i);
    layOut();
    layout.open.splice(0, Infinity, ...new Set([...usedSheets(layout), ...remnants]));
    took(search);
  }
};

/** Ways to lay parts that there are many of as lattices; others before or after them. */
const withLattices = (
  { stock, layout }: Search,
  orders: readonly (readonly number[])[],
): readonly (() => void)[] => {
  const many = manyEqual(stock, layout);
  if (many.length === 0) return [];
  const known: KnownLattices = new Map();
  const areOthers = many.flat().length < layout.count;
  return orders.flatMap((sheets) =>
    (areOthers ? (['before', 'after'] as const) : (['after'] as const)).map(
      (others) => () => layLattices(layout, many, sheets, { others, known }),
    ),
  );
};

/** Of more parts than this a greedy layout takes seconds, and asks at each one whether to go on. */
const LONG_GREEDY = 200;

const putAway = ({ sheet, on }: Layout, i: number): void => {
  const k = sheet[i] as number;
  if (k < 0) return;
  const there = on[k] as number[];
  there.splice(there.indexOf(i), 1);
  sheet[i] = -1;
};

/** The largest first, or the longest, or the highest; those that are to be first before all. */
const ordersOf = ({ stock, layout }: Search): readonly (readonly number[])[] => {
  const { task, request, partOf } = stock;
  const size = (of: (shape: Shape) => number) => {
    const sizes = partOf.map((_, i) => {
      const first = task.items[i]?.find((c) => c.length > 0)?.[0] as number;
      return of(task.shapes[first] as Shape);
    });
    return partOf.map((_, i) => i).sort((a, b) => (sizes[b] as number) - (sizes[a] as number));
  };
  const isFirst = (i: number): boolean =>
    (request.parts[partOf[i] as number] as PartToLay).isFirst === true;
  return [
    bySize(layout),
    size((s) => Math.max(s.maxX - s.minX, s.maxY - s.minY)),
    size((s) => s.maxY - s.minY),
    size((s) => s.maxX - s.minX),
  ].map((order) => [...order.filter(isFirst), ...order.filter((i) => !isFirst(i))]);
};

/**
 * Rounds without a gain after which nothing is expected any more: fewer where no cheaper sheets do,
 * and all that is to be gained is a larger remnant.
 */
const mostIdle = (isProved: boolean): number => (isProved ? 80 : 300);

/** Cheaper sheets and more room, in turn. Whether it is sure that no cheaper choice of sheets does. */
const improve = (search: Search): boolean => {
  let isProved = isCheapest(search) || proveFew(search);
  for (let idle = 0; idle < mostIdle(isProved) && search.mayGoOn();) {
    const isCheaper = !isProved && tryCheaper(search);
    isProved ||= isCheaper && isCheapest(search);
    const isTidier = makeRoom(search);
    idle = isCheaper || isTidier ? 0 : idle + 1;
  }
  return isProved;
};

/** Whether all parts are laid, and the area of every cheaper choice of sheets is too little. */
const isCheapest = (search: Search): boolean => {
  const { sets, areAll } = setsBelow(search);
  return !isAnyOut(search) && areAll && sets.length === 0;
};

/** One more part, or as many on cheaper sheets. */
const tryCheaper = (search: Search): boolean => {
  if (isAnyOut(search)) return tryLeft(search);
  const { sets } = setsBelow(search);
  return sets.length > 0 && trySet(search, anyOf(search, sets));
};

/** The dearest more often, for parts find room on them soonest. */
const anyOf = ({ random }: Search, sets: readonly SheetSet[]): SheetSet =>
  sets[Math.floor(random.next() ** 2 * sets.length)] as SheetSet;
