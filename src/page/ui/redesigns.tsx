import { signal } from '@preact/signals';
import type { RedesignAnswer } from '../core/questions.ts';
import { withEntry } from '../model/job-text.ts';
import { entryOf } from './inputs.ts';
import { askLong } from './work.ts';
import { change, jobText, partAsk } from './state.ts';

/** The designs that were found, and for which text of the job. */
const found = signal<{ readonly of: string; readonly list: readonly RedesignAnswer[] } | undefined>(
  undefined,
);
const isLooking = signal(false);

const look = async (index: number): Promise<void> => {
  isLooking.value = true;
  const of = jobText.value;
  const list = await askLong('redesigns', partAsk(index), {
    what: 'Looking for a design that can be folded here',
    left: 'The part is as it was.',
    again: () => void look(index),
  }).catch(() => undefined);
  if (list !== undefined) found.value = { of, list };
  isLooking.value = false;
};

/** All inputs of a design at once: one step of undo. */
const take = (index: number, { inputs, words }: RedesignAnswer): void => {
  let text = jobText.value;
  for (const [name, value] of Object.entries(inputs))
    text = withEntry(text, entryOf(index, name), String(value));
  change(text, words);
};

/** For a part that cannot be folded here: other designs of it that can, each to be taken by a press. */
export const Redesigns = ({ index }: { readonly index: number }) => {
  const list = found.value?.of === jobText.value ? found.value.list : undefined;
  return (
    <section class="said warn">
      <h2>It cannot be folded here as it is</h2>
      {list === undefined ? (
        <button
          type="button"
          class="main"
          disabled={isLooking.value}
          onClick={() => void look(index)}
        >
          {isLooking.value ? 'Looking' : 'Look for a design that can'}
        </button>
      ) : list.length === 0 ? (
        <p role="status">None was found: have it folded elsewhere, or change its sizes.</p>
      ) : (
        <ul class="papers">
          {list.map((one) => (
            <li key={one.words}>
              <button type="button" onClick={() => take(index, one)}>
                Take this
              </button>{' '}
              {one.words}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
};
