import { signal } from '@preact/signals';
import type { BlankAnswer } from '../core/questions.ts';
import { shortOf } from '../model/short-of.ts';

/**
 * The steps that are ticked off at the machine, kept in this browser: the phone may go dark between two of
 * them, or the page be loaded again. A plan that has changed begins anew, since its steps are others.
 */

const KEY = 'blankwright.done';
/** Plans that are kept; the oldest go. */
const MOST_PLANS = 40;

type Kept = Readonly<Record<string, readonly number[]>>;

const read = (): Kept => {
  try {
    return JSON.parse(localStorage.getItem(KEY) ?? '{}') as Kept;
  } catch {
    return {};
  }
};

const ticks = signal<Kept>(read());
// Another page of this browser ticks off the steps of other parts, or of this one.
addEventListener('storage', ({ key }) => {
  if (key === KEY) ticks.value = read();
});

const nameOf = ({ name, piece, hand, steps }: BlankAnswer): string =>
  shortOf(JSON.stringify([name, piece, hand, steps.map(({ title, lines }) => [title, lines])]));

/** The steps that are done, by their places. */
export const doneOf = (blank: BlankAnswer): ReadonlySet<number> =>
  new Set(ticks.value[nameOf(blank)]);

/** Ticks a step off, or takes the tick back. */
export const tick = (blank: BlankAnswer, step: number): void => {
  const done = new Set(doneOf(blank));
  if (!done.delete(step)) done.add(step);
  const { [nameOf(blank)]: _, ...others } = { ...ticks.value, ...read() };
  ticks.value = Object.fromEntries(
    [...Object.entries(others), [nameOf(blank), [...done]] as const].slice(-MOST_PLANS),
  );
  try {
    localStorage.setItem(KEY, JSON.stringify(ticks.value));
  } catch {
    // A browser that keeps nothing has them until the page is closed.
  }
};
