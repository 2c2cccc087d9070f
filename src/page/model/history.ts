/**
 * The texts of a job, one behind the other, as they were changed: undo goes back to the very text
 * that there was.
 */
export interface History {
  readonly past: readonly Change[];
  readonly text: string;
  readonly future: readonly Change[];
}

/** A change, in words, with the text on the other side of it. */
export interface Change {
  readonly words: string;
  readonly text: string;
  /** What it changed: changes of one thing in a row are one step. */
  readonly of: string;
}

/** Steps that are kept; a job is a few kilobytes. */
const MOST_STEPS = 500;

export const startOf = (text: string): History => ({ past: [], text, future: [] });

/**
 * The next text. With `joins`, a change of the same thing as the one before it becomes one with it,
 * as the letters of one figure do.
 */
export const changed = (
  history: History,
  text: string,
  { words, of, joins }: { readonly words: string; readonly of: string; readonly joins: boolean },
): History => {
  if (text === history.text) return history;
  const last = history.past.at(-1);
  const isSame = joins && last !== undefined && last.of === of && history.future.length === 0;
  const before = isSame ? last.text : history.text;
  const earlier = isSame ? history.past.slice(0, -1) : history.past;
  return {
    past: text === before ? earlier : [...earlier.slice(-MOST_STEPS), { words, of, text: before }],
    text,
    future: [],
  };
};

export const undone = ({ past, text, future }: History): History => {
  const last = past.at(-1);
  return last === undefined
    ? { past, text, future }
    : { past: past.slice(0, -1), text: last.text, future: [{ ...last, text }, ...future] };
};

export const redone = ({ past, text, future }: History): History => {
  const [next, ...later] = future;
  return next === undefined
    ? { past, text, future }
    : { past: [...past, { ...next, text }], text: next.text, future: later };
};
