import { effect, signal } from '@preact/signals';
import { readPaperMark } from '../../model/paper-mark.ts';
import type { PaperAnswer } from '../core/questions.ts';
import { slow } from './cores.ts';
import { chosen, jobText, partsOf, shopText } from './state.ts';

/** What was read from a square code: typed here, or in the fragment of the address. */
const text = signal(readPaperMark(location.hash) === undefined ? '' : location.hash);
const found = signal<PaperAnswer | null>(null);

const isMark = (): boolean => readPaperMark(text.value) !== undefined;

addEventListener('hashchange', () => {
  if (readPaperMark(location.hash) !== undefined) text.value = location.hash;
});

effect(() => {
  found.value = null;
  if (!isMark() || partsOf().length === 0) return;
  const ask = { job: jobText.value, shop: shopText.value, text: text.value };
  void slow.ask('paper', ask, { key: 'paper' }).then((answer) => {
    if (answer !== undefined && ask.text === text.value) found.value = answer;
  });
});

const STATES = {
  same: 'It is cut from the same file today.',
  changed: 'The part has been changed since: its cut file is another one. Print the paper anew.',
  'not told': 'Which file it was cut from is not told.',
} as const;

const Found = ({ words, index, blank, state }: PaperAnswer) =>
  index === null ? (
    <p role="status">{words}: this job has no such part.</p>
  ) : (
    <p role="status">
      <a
        href={`#/part/${index}/flat`}
        onClick={() => {
          chosen.value = blank;
        }}
      >
        {words}
      </a>
      . {STATES[state]}
    </p>
  );

/** From a paper back to its part: what the square code says, pasted or scanned into the field. */
export const FindPaper = () => (
  <section>
    <h2>Find the part of a paper</h2>
    <label>
      <span class="label">What its square code says</span>
      <input
        type="search"
        value={text.value.replace(/^#/, '')}
        onInput={(e) => {
          text.value = e.currentTarget.value.trim();
        }}
      />
    </label>
    {found.value !== null && <Found {...found.value} />}
    {text.value !== '' && !isMark() && (
      <p role="status">
        No code of a paper. It begins with <code>blankwright:</code> and stands in words beside the
        code.
      </p>
    )}
  </section>
);
