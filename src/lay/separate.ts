import { bestPlace } from './best-place.ts';
import { lay, type Layout, overlapAt, overlapWith } from './layout.ts';
import type { Random } from './random.ts';
import { settle, SETTLED_SHARE } from './settle.ts';

/** What a search asks before each of its steps. */
export type MayGoOn = () => boolean;

/** How long a search tries. */
export interface Effort {
  /** Rounds without a gain after which an attempt is given up. */
  readonly idleRounds: number;
  /** Attempts without a gain, each from the best state so far, after which it ends. */
  readonly idleAttempts: number;
}

/** Places, sheets and shapes, to be put back. */
export type Kept = Pick<Layout, 'shape' | 'sheet' | 'x' | 'y' | 'lengths' | 'widths' | 'open'>;

export const keep = ({ shape, sheet, x, y, lengths, widths, open }: Layout): Kept => ({
  shape: shape.slice(),
  sheet: sheet.slice(),
  x: x.slice(),
  y: y.slice(),
  lengths: lengths.slice(),
  widths: widths.slice(),
  open: [...open],
});

export const putBack = (layout: Layout, kept: Kept): void => {
  const { shape, sheet, x, y, lengths, widths, open } = kept;
  layout.lengths.set(lengths);
  layout.widths.set(widths);
  layout.open.splice(0, Infinity, ...open);
  for (let i = 0; i < layout.count; i++)
    lay(layout, i, shape[i] as number, sheet[i] as number, x[i] as number, y[i] as number);
};

/** Two things that overlap, of which the first is an item. */
interface Pair {
  readonly i: number;
  readonly j: number;
  readonly depth: number;
}

/** The pairs that overlap, each once. */
export const overlappingPairs = (layout: Layout): Pair[] => {
  const { on, count, shape, x, y } = layout;
  const pairs: Pair[] = [];
  for (const there of on)
    for (const i of there) {
      if (i >= count) continue;
      for (const j of there) {
        if (j <= i) continue;
        const [as, atX, atY] = [shape[i] as number, x[i] as number, y[i] as number];
        const depth = overlapWith(layout, j, as, atX, atY);
        if (depth > 0) pairs.push({ i, j, depth });
      }
    }
  return pairs;
};

const sumOf = (pairs: readonly Pair[]): number => pairs.reduce((sum, p) => sum + p.depth, 0);

/** What the overlap has to come down to, as a share, for a round to count as no idle one. */
const GAIN = 0.98;

export interface Separated {
  readonly isApart: boolean;
  /** The least sum of depths that was come to. */
  readonly overlap: number;
}

/**
 * Moves items until none overlaps, or the effort is spent; the layout is then the one with the
 * least overlap. Pairs that keep on overlapping weigh more and more, so that what blocks is moved
 * away in the end.
 */
export const separate = (
  layout: Layout,
  random: Random,
  effort: Effort,
  mayGoOn: MayGoOn,
): Separated => {
  layout.weight.fill(1);
  const state: State = { best: keep(layout), least: sumOf(overlappingPairs(layout)) };
  let idle = 0;
  while (idle < effort.idleAttempts) {
    const before = state.least;
    const end = attempt(layout, random, effort.idleRounds, mayGoOn, state);
    if (end === 'apart') return { isApart: true, overlap: 0 };
    putBack(layout, state.best);
    if (end === 'stopped') break;
    idle = state.least < GAIN * before ? 0 : idle + 1;
  }
  return { isApart: false, overlap: state.least };
};

interface State {
  best: Kept;
  least: number;
}

const attempt = (
  layout: Layout,
  random: Random,
  idleRounds: number,
  mayGoOn: MayGoOn,
  state: State,
): 'apart' | 'idle' | 'stopped' => {
  let pairs = overlappingPairs(layout);
  for (let idle = 0; idle < idleRounds;) {
    if (pairs.length === 0 || isSettled(layout, pairs)) return 'apart';
    if (!moveAll(layout, pairs, random, mayGoOn)) return 'stopped';
    pairs = overlappingPairs(layout);
    const overlap = sumOf(pairs);
    idle = overlap < GAIN * state.least ? 0 : idle + 1;
    if (overlap < state.least) {
      state.least = overlap;
      state.best = keep(layout);
    }
    growWeights(layout, pairs);
  }
  return 'idle';
};

/** Overlaps up to this share of the sheet's width are small enough to be pushed away. */
const SMALL_SHARE = 2e-3;

/** A tiny overlap is taken away by pushing; the layout stays as it was where that fails. */
const isSettled = (layout: Layout, pairs: readonly Pair[]): boolean => {
  const width = Math.max(...layout.task.sheets.map((s) => s.width));
  if (pairs.some(({ depth }) => depth > SMALL_SHARE * width)) return false;
  const before = keep(layout);
  const noise = SETTLED_SHARE * width;
  // Pushing looks at neighbours only, and may have pushed something into what was none.
  if (settle(layout) && overlappingPairs(layout).every(({ depth }) => depth <= noise)) return true;
  putBack(layout, before);
  return false;
};

/** One try for each item that overlaps, in any order. False where there is no step left. */
const moveAll = (
  layout: Layout,
  pairs: readonly Pair[],
  random: Random,
  mayGoOn: MayGoOn,
): boolean => {
  const { count, shape, sheet, x, y } = layout;
  const moving = [...new Set(pairs.flatMap(({ i, j }) => (j < count ? [i, j] : [i])))];
  for (const i of shuffled(moving, random)) {
    const [as, on] = [shape[i] as number, sheet[i] as number];
    const now = overlapAt(layout, i, as, on, x[i] as number, y[i] as number, Infinity);
    if (now === 0) continue;
    if (!mayGoOn()) return false;
    const place = bestPlace(layout, i, random, now);
    if (place !== undefined) lay(layout, i, place.shape, place.sheet, place.x, place.y);
  }
  return true;
};

const shuffled = (numbers: number[], random: Random): number[] => {
  for (let k = numbers.length - 1; k > 0; k--) {
    const other = random.below(k + 1);
    [numbers[k], numbers[other]] = [numbers[other] as number, numbers[k] as number];
  }
  return numbers;
};

/** By what the weights of pairs grow, the deepest one most, and what the others keep. */
const GROWTH = { least: 1.05, most: 1.2 };
const KEPT = 0.95;

/** The deeper a pair overlaps the more its weight grows; the others go back towards 1. */
const growWeights = ({ weight, sheet }: Layout, pairs: readonly Pair[]): void => {
  const all = sheet.length;
  const deepest = pairs.reduce((most, { depth }) => Math.max(most, depth), 0);
  const grown = pairs.map(
    ({ i, j, depth }) =>
      (weight[i * all + j] as number) *
      (GROWTH.least + (GROWTH.most - GROWTH.least) * (depth / deepest)),
  );
  for (let k = 0; k < weight.length; k++) {
    const w = weight[k] as number;
    if (w > 1) weight[k] = Math.max(1, w * KEPT);
  }
  pairs.forEach(({ i, j }, k) => {
    weight[i * all + j] = grown[k] as number;
    weight[j * all + i] = grown[k] as number;
  });
};
