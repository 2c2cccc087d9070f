import { type Signal, useSignal } from '@preact/signals';
import { joined, type Stretch, stretchesOf, type Taken } from '../model/merge.ts';
import type { KeptText } from './kept-text.ts';
import { KEPT } from './saving.ts';

/** What is taken of each place that both changed, by its number among them. */
type Choices = Signal<ReadonlyMap<number, Taken>>;

const CHOICES = [
  ['mine', 'mine'],
  ['theirs', 'theirs'],
  ['both', 'both, mine first'],
] as const;

/** Lines about a change that are shown with it. */
const AROUND = 2;

/** The two texts line by line: where both changed the same lines, one is chosen. */
const LineByLine = ({
  stretches,
  called,
  taken,
}: {
  readonly stretches: readonly Stretch[];
  readonly called: string;
  readonly taken: Choices;
}) => {
  let asked = 0;
  return (
    <div class="merge">
      {stretches.map((stretch, i) => {
        if (stretch.kind === 'agreed')
          return <Agreed key={i} lines={stretch.lines} isFirst={i === 0} />;
        const number = asked++;
        const which = taken.value.get(number) ?? 'mine';
        return (
          <fieldset key={i} class="asked">
            <legend>Changed here and elsewhere, place {number + 1}</legend>
            <div class="beside">
              <Side title="On this page" lines={stretch.mine} isTaken={which !== 'theirs'} />
              <Side title="In the file" lines={stretch.theirs} isTaken={which !== 'mine'} />
            </div>
            <div class="row">
              {CHOICES.map(([value, words]) => (
                <label key={value} class="tick">
                  <input
                    type="radio"
                    name={`taken-${called}-${number}`}
                    checked={which === value}
                    onChange={() => {
                      taken.value = new Map([...taken.value, [number, value]]);
                    }}
                  />
                  Take {words}
                </label>
              ))}
            </div>
          </fieldset>
        );
      })}
    </div>
  );
};

const Side = ({
  title,
  lines,
  isTaken,
}: {
  readonly title: string;
  readonly lines: readonly string[];
  readonly isTaken: boolean;
}) => (
  <div>
    <h3>
      {title}
      {isTaken ? ' (taken)' : ''}
    </h3>
    <pre>{isTaken ? <mark>{lines.join('\n')}</mark> : lines.join('\n')}</pre>
  </div>
);

/** Lines that go without asking; of many, those next to what is asked. */
const Agreed = ({
  lines,
  isFirst,
}: {
  readonly lines: readonly string[];
  readonly isFirst: boolean;
}) => {
  const shown =
    lines.length <= 2 * AROUND + 1
      ? lines
      : [...(isFirst ? [] : lines.slice(0, AROUND)), '...', ...lines.slice(-AROUND)];
  return <pre class="agreed">{shown.join('\n')}</pre>;
};

/** What is asked when the job file or the shop file was changed by somebody else while it was open here. */
export const Conflicts = () => (
  <>
    {KEPT.map((kept) => (
      <Conflict key={kept.called} kept={kept} />
    ))}
  </>
);

const Conflict = ({ kept }: { readonly kept: KeptText }) => {
  const taken: Choices = useSignal(new Map());
  const other = kept.conflict.value;
  if (other === undefined) return null;
  const { called, file } = kept;
  const mine = file.text.value;
  const stretches = stretchesOf(other.base, mine, other.theirs);
  const asked = stretches.filter(({ kind }) => kind === 'asked').length;
  const go = (text: string, words: string): void => {
    taken.value = new Map();
    kept.settle(text, words);
  };
  return (
    <section class="said warn" role="alert">
      <h2>The {called} file was changed elsewhere</h2>
      <p>
        Nothing is lost: both are here.{' '}
        {asked === 0
          ? 'No line was changed in both.'
          : `${asked === 1 ? 'One place was' : `${asked} places were`} changed in both.`}{' '}
        Undo goes back to what was on this page.
      </p>
      <div class="row">
        <button
          type="button"
          class="main"
          onClick={() =>
            go(
              joined(stretches, (i) => taken.value.get(i) ?? 'mine'),
              'joined with the file as changed elsewhere',
            )
          }
        >
          Line by line, as below
        </button>
        <button type="button" onClick={() => go(mine, 'kept this page')}>
          Keep what is on this page
        </button>
        <button
          type="button"
          onClick={() => go(other.theirs, 'took the file as changed elsewhere')}
        >
          Take what is in the file
        </button>
      </div>
      <LineByLine {...{ stretches, called, taken }} />
    </section>
  );
};
