import { disturb, middleOf, moveMiddle } from './disturb.ts';
import { bySize, layGreedily } from './greedy.ts';
import { type Layout, moveTo, roomFor } from './layout.ts';
import type { Random } from './random.ts';
import { type Effort, keep, type Kept, type MayGoOn, putBack, separate } from './separate.ts';
import type { Shape } from './shapes.ts';

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
  press(search, FIRST_PRESS);
  while (mayGoOn()) {
    const share = LEAP.least * (LEAP.most / LEAP.least) ** random.next();
    if (leap(search, share)) press(search, share / 2);
  }
  putBack(layout, search.best);
  return search.length;
};

/**
 * Shares of the length that are tried to be saved at once, any between these: where things fit into
 * each other tightly there is nothing to be gained by little, and where they do not, not by much.
 */
const LEAP = { least: 0.003, most: 0.025 };

/** Keeps the layout as the best one. */
const took = (search: Search): void => {
  search.length = reachOf(search.layout);
  search.layout.lengths[0] = search.length;
  search.best = keep(search.layout);
  search.onBetter(search.length);
};

/** Share of the length by which the first press begins; less than the least does not pay. */
const FIRST_PRESS = 0.01;
const LEAST_PRESS = 2e-4;
const PRESS: Effort = { idleRounds: 12, idleAttempts: 1 };

/** A little shorter from the best layout, as long as the items give way. */
const press = (search: Search, firstShare: number): void => {
  const { layout, random, mayGoOn } = search;
  let share = firstShare;
  while (share > LEAST_PRESS && mayGoOn()) {
    putBack(layout, search.best);
    shorten(layout, search.length * (1 - share), random);
    if (separate(layout, random, PRESS, mayGoOn).isApart) took(search);
    else share /= 3;
  }
};

/** A layout that nearly went. */
interface Nearly {
  readonly kept: Kept;
  readonly overlap: number;
}

/** So many of them are kept, and tries without a gain on the best of them end a leap. */
const POOL = 5;
const IDLE_TRIES = 4;
const TRY: Effort = { idleRounds: 90, idleAttempts: 1 };

/** An overlap of less than this share of the best one is a gain. */
const NEARER = 0.9;

/**
 * Much shorter at once, from one layout after the other that nearly went, each disturbed. Where none
 * goes the one that came nearest is given some of the length back. Whether it got any shorter.
 */
const leap = (search: Search, share: number): boolean => {
  const { layout, random, mayGoOn } = search;
  const target = search.length * (1 - share);
  let pool: Nearly[] = [];
  putBack(layout, search.best);
  shorten(layout, target, random);
  for (let idle = 0; idle < IDLE_TRIES && mayGoOn();) {
    const { isApart, overlap } = separate(layout, random, TRY, mayGoOn);
    if (isApart) {
      took(search);
      return true;
    }
    idle = overlap < NEARER * (pool[0]?.overlap ?? Infinity) ? 0 : idle + 1;
    pool.push({ kept: keep(layout), overlap });
    pool = pool.toSorted((a, b) => a.overlap - b.overlap).slice(0, POOL);
    // The better ones more often.
    putBack(layout, (pool[Math.floor(random.next() ** 2 * pool.length)] as Nearly).kept);
    disturb(layout, random);
  }
  return pool[0] !== undefined && giveBack(search, target, pool[0]);
};

/** Overlaps of more than so many times the length that was to be saved do not go with less either. */
const TOO_MUCH = 4;

/** Shares of what was to be saved that are given back, one after the other. */
const GIVEN_BACK = [0.4, 0.75];

const giveBack = (search: Search, target: number, { kept, overlap }: Nearly): boolean => {
  const { layout, random, mayGoOn } = search;
  const saved = search.length - target;
  if (overlap > TOO_MUCH * saved) return false;
  for (const share of GIVEN_BACK) {
    putBack(layout, kept);
    lengthen(layout, target + share * saved);
    if (!separate(layout, random, PRESS, mayGoOn).isApart) continue;
    took(search);
    return true;
  }
  return false;
};

/** Everything moves apart along the sheet. */
const lengthen = (layout: Layout, length: number): void => {
  const by = length / (layout.lengths[0] as number);
  layout.lengths[0] = length;
  for (let i = 0; i < layout.count; i++) {
    const [x, y] = middleOf(layout, i);
    moveMiddle(layout, i, [x * by, y]);
  }
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
