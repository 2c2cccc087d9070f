import { useEffect } from 'preact/hooks';
import type { FindingResult } from '../../contract/part.ts';
import type { BlankAnswer, PartAnswer } from '../core/questions.ts';
import { withCopy, withEntry, withMove, withoutPart } from '../model/job-text.ts';
import { wordOf } from '../model/word-of.ts';
import { change, chosen, drawFamily, familyPictures, jobText, parts, partsOf } from './state.ts';
import { Svg } from './svg.tsx';
import { isUnfoldable } from './blank-state.ts';
import { stopped } from './work.ts';

/** The state of a part in a word, with the mark that goes with it. */
export type PartState = readonly [mark: string, word: string, kind: string];

const isCaution = ({ rule }: FindingResult): boolean => rule.startsWith('caution-');

export const stateOf = (answer: PartAnswer | undefined): PartState => {
  if (answer === undefined)
    return stopped.value === undefined
      ? ['…', 'being made', 'busy']
      : ['…', 'not looked at yet', 'busy'];
  if (answer.problems.length > 0) return ['?', 'asks for something', 'warn'];
  if (answer.blanks.some(({ stopped }) => stopped)) return ['✕', 'stopped', 'stop'];
  if (answer.blanks.some(isUnfoldable)) return ['!', 'cannot be folded here', 'stop'];
  const isWarned = answer.blanks.some(({ findings }) =>
    findings.some((f) => f.severity === 'warn' && !isCaution(f)),
  );
  return isWarned ? ['!', 'made, with a warning', 'warn'] : ['✓', 'made', 'good'];
};

/** What is wrong with one blank, in a word; nothing where it is made. */
const wordOfBlank = (blank: BlankAnswer): string =>
  blank.stopped ? ', stopped' : isUnfoldable(blank) ? ', cannot be folded here' : '';

/** The pieces that a tank or a duct is made of, each with how often it is cut. */
const Pieces = ({ answer, index }: { readonly answer: PartAnswer; readonly index: number }) => {
  const pieces = answer.blanks.flatMap((blank, at) =>
    blank.piece !== null && blank.hand === answer.blanks[0]?.hand ? [{ blank, at }] : [],
  );
  if (pieces.length < 2) return null;
  return (
    <details class="pieces">
      <summary>{pieces.length} pieces</summary>
      <ul>
        {pieces.map(({ blank, at }) => (
          <li key={at}>
            <a
              href={`#/part/${index}/flat`}
              onClick={() => {
                chosen.value = at;
              }}
            >
              {blank.piece}
            </a>
            {blank.quantity > 1 ? `, ${blank.quantity} of them` : ''}
            {wordOfBlank(blank)}
          </li>
        ))}
      </ul>
    </details>
  );
};

/** A part of the job as a card: its picture, its state, and what can be done with it. */
export const PartCard = ({ index, last }: { readonly index: number; readonly last: number }) => {
  const part = partsOf()[index];
  const answer = parts.value.get(index);
  const [mark, word, kind] = stateOf(answer);
  const family = wordOf(part?.family);
  const name = wordOf(part?.name ?? family);
  const [first] = answer?.blanks ?? [];
  const thumb = [first?.thumb, first?.flat?.svg, familyPictures.value.get(family)].find(
    (picture) => picture !== undefined && picture !== '',
  );
  const remove = (): void => change(withoutPart(jobText.value, index), `take out ${name}`);
  const isBare = answer !== undefined && thumb === undefined;
  useEffect(() => {
    if (isBare) void drawFamily(family);
  }, [isBare, family]);
  const mirror = (): void => {
    const other = part?.hand === 'right' ? undefined : 'right';
    change(
      withEntry(jobText.value, ['parts', index, 'hand'], other),
      `${name} ${other ?? 'left'} hand`,
    );
  };
  const copy = (): void => change(withCopy(jobText.value, index, freeName(name)), `copy ${name}`);
  return (
    <li class="card">
      <a
        class="open"
        href={`#/part/${index}/flat`}
        onClick={() => {
          chosen.value = 0;
        }}
      >
        <Svg
          picture={thumb ?? ''}
          label={first?.tube == null ? `${name}, folded` : `${name}, the tube`}
          className="thumb"
        />
        <strong>{name}</strong>
      </a>
      <p class="facts">
        {family}
        {part?.hand === 'both' ? ', left and right' : part?.hand === 'right' ? ', right' : ''}
        {first === undefined ? '' : `, ${first.sheet}`}
        {answer !== undefined && answer.blanks.length > 1
          ? `, ${answer.blanks.length} ${first?.tube == null ? 'blanks' : 'tubes'}`
          : ''}
      </p>
      <p class={`state ${kind}`}>
        <span aria-hidden="true">{mark}</span> {word}
      </p>
      {answer !== undefined && <Pieces answer={answer} index={index} />}
      <div class="row small">
        <button type="button" onClick={copy} aria-label={`Copy ${name}`}>
          Copy
        </button>
        {part?.hand !== 'both' && (
          <button type="button" onClick={mirror} aria-label={`Mirror ${name}`}>
            Mirror
          </button>
        )}
        <button
          type="button"
          disabled={index === 0}
          aria-label={`Move ${name} up`}
          onClick={() => change(withMove(jobText.value, index, index - 1), `move ${name} up`)}
        >
          Up
        </button>
        <button
          type="button"
          disabled={index === last}
          aria-label={`Move ${name} down`}
          onClick={() => change(withMove(jobText.value, index, index + 1), `move ${name} down`)}
        >
          Down
        </button>
        <button type="button" onClick={remove} aria-label={`Take out ${name}`}>
          Take out
        </button>
      </div>
    </li>
  );
};

/** `seat post` -> `seat post 2`, or the next number that no part has. */
export const freeName = (name: string): string => {
  const taken = new Set(partsOf().map((p) => wordOf(p.name ?? p.family).toLowerCase()));
  const base = name.replace(/ \d+$/, '');
  for (let i = 1; ; i++) {
    const next = i === 1 ? base : `${base} ${i}`;
    if (!taken.has(next.toLowerCase())) return next;
  }
};
