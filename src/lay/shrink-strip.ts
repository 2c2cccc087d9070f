import { boxArea, bySize, layGreedily } from './greedy.ts';
import { type Layout, moveTo, roomFor } from './layout.ts';
import type { Random } from './random.ts';
import { type Effort, keep, type Kept, type MayGoOn, putBack, separate } from './separate.ts';
import type { Shape } from './shapes.ts';

const LONG: Effort = { idleRounds: 60, idleAttempts: 2 };
const SHORT: Effort = { idleRounds: 25, idleAttempts: 1 };

/** The strip, as it is made shorter. */
interface Search {
  readonly layout: Layout;
  readonly random: Random;
  readonly mayGoOn: MayGoOn;
  readonly onBetter: (length: number) => void;
  best: Kept;
  length: number;
}

/** How far the items reach along the first sheet. */
export const reachOf = ({ count, x, shape, task }: Layout): number => {
  let reach = 0;
  for (let i = 0; i < count; i++)
    reach = Math.max(reach, (x[i] as number) + (task.shapes[shape[i] as number] as Shape).maxX);
  return reach;
};

/**
 * Lays all items on the only sheet and shortens it again and again, until it may not go on. The
 * layout ends as the shortest one found, free of overlap; that length is returned, and told each
 * time it gets less. What is done at which step depends on the seed alone, never on the time.
 */
export const shrinkStrip = (
  layout: Layout,
  random: Random,
  mayGoOn: MayGoOn,
  onBetter: (length: number) => void,
): number => {
  layGreedily(layout, bySize(layout), [0]);
  const search: Search = { layout, random, mayGoOn, onBetter, best: keep(layout), length: 0 };
  took(search);
  let leap = LEAP.most;
  while (mayGoOn()) {
    press(search, leap / 4);
    if (tryLeap(search, leap)) continue;
    leap *= LEAP.less;
    if (leap < LEAP.least) leap = LEAP.most;
  }
  putBack(layout, search.best);
  return search.length;
};

/**
 * Shares of the length that are tried to be saved at once: a smaller one after each that failed, and
 * the largest again after the least, for where things fit into each other tightly there is nothing
 * to be gained by little.
 */
const LEAP = { most: 0.025, least: 0.002, less: 0.6 };

/** Keeps the layout as the best one. */
const took = (search: Search): void => {
  search.length = reachOf(search.layout);
  search.layout.lengths[0] = search.length;
  search.best = keep(search.layout);
  search.onBetter(search.length);
};

/** Presses shorter by less than this do not pay. */
const LEAST_PRESS = 2e-5;

/** A little shorter from the best layout, as long as the items give way. */
const press = (search: Search, firstShare: number): void => {
  const { layout, random, mayGoOn } = search;
  let share = firstShare;
  while (share > LEAST_PRESS && mayGoOn()) {
    putBack(layout, search.best);
    shorten(layout, search.length * (1 - share), random);
    if (separate(layout, random, SHORT, mayGoOn).isApart) took(search);
    else share /= 2;
  }
};

/** Layouts that nearly went, of which the next try begins with one. */
const POOL = 5;
const TRIES = 6;

/** Much shorter, from one layout after the other that nearly went, with two items changed over. */
const tryLeap = (search: Search, share: number): boolean => {
  const { layout, random, mayGoOn } = search;
  let pool: { readonly kept: Kept; readonly overlap: number }[] = [];
  putBack(layout, search.best);
  shorten(layout, search.length * (1 - share), random);
  for (let tries = 0; tries < TRIES && mayGoOn(); tries++) {
    const { isApart, overlap } = separate(layout, random, LONG, mayGoOn);
    if (isApart) {
      took(search);
      return true;
    }
    pool.push({ kept: keep(layout), overlap });
    pool = pool.toSorted((a, b) => a.overlap - b.overlap).slice(0, POOL);
    // The better ones more often.
    putBack(layout, (pool[Math.floor(random.next() ** 2 * pool.length)] as { kept: Kept }).kept);
    changeOver(layout, random);
  }
  return false;
};

/** What lies behind a cut somewhere moves along with the end; the rest is kept within it. */
const shorten = (layout: Layout, length: number, random: Random): void => {
  const { lengths, task, count, shape, x, y } = layout;
  const by = (lengths[0] as number) - length;
  const cut = random.next() * length;
  lengths[0] = length;
  for (let i = 0; i < count; i++) {
    const room = roomFor(layout, shape[i] as number, 0);
    const { minX, maxX } = task.shapes[shape[i] as number] as Shape;
    const at = x[i] as number;
    const moved = at + (minX + maxX) / 2 > cut ? at - by : at;
    moveTo(layout, i, Math.max(room.minX, Math.min(room.maxX, moved)), y[i] as number);
  }
};

/** Two of the larger half, of different shape, lie where the other one lay. */
const changeOver = (layout: Layout, random: Random): void => {
  const larger = bySize(layout).slice(0, Math.max(2, Math.ceil(layout.count / 2)));
  const a = larger[random.below(larger.length)] as number;
  const others = larger.filter((i) => Math.abs(boxArea(layout, i) / boxArea(layout, a) - 1) > SAME);
  const b = others[random.below(others.length)];
  if (b === undefined) return;
  const [atA, atB] = [middleOf(layout, a), middleOf(layout, b)];
  moveMiddle(layout, a, atB);
  moveMiddle(layout, b, atA);
};

/** Boxes whose areas differ by less than this share are taken for those of the same shape. */
const SAME = 1e-6;

const middleOf = ({ task, shape, x, y }: Layout, i: number): readonly [number, number] => {
  const { minX, minY, maxX, maxY } = task.shapes[shape[i] as number] as Shape;
  return [(x[i] as number) + (minX + maxX) / 2, (y[i] as number) + (minY + maxY) / 2];
};

const moveMiddle = (layout: Layout, i: number, [toX, toY]: readonly [number, number]): void => {
  const [atX, atY] = middleOf(layout, i);
  const room = roomFor(layout, layout.shape[i] as number, layout.sheet[i] as number);
  const [x, y] = [layout.x[i] as number, layout.y[i] as number];
  const movedX = Math.max(room.minX, Math.min(room.maxX, x + toX - atX));
  const movedY = Math.max(room.minY, Math.min(room.maxY, y + toY - atY));
  moveTo(layout, i, movedX, movedY);
};
