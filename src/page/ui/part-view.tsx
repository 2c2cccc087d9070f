import type { BlankAnswer } from '../core/questions.ts';
import type { Mend } from '../../model/mend.ts';
import { isWhole } from './blank-state.ts';
import { Fields } from './fields.tsx';
import { Fit } from './fit.tsx';
import { Flat } from './flat.tsx';
import { Folded, titleOf } from './folded.tsx';
import { setInput } from './inputs.ts';
import { wordsOf } from '../model/words-of.ts';
import { Papers } from './papers.tsx';
import { Redesigns } from './redesigns.tsx';
import { mendWords, Said } from './said.tsx';
import { chosen, isNarrow, isOneColumn, parts, partsOf, place } from './state.ts';
import { sketches, useSketches } from './sketch-state.ts';
import { Sketches } from './sketches.tsx';
import { wordOf } from '../model/word-of.ts';
import { Steps } from './steps.tsx';
import { ReportTables, TubeMarks } from './tube-marks.tsx';
import { lengthText } from './units.ts';

type Tab = (typeof place.value)['tab'];

/** The pictures of a part, by what they are called: a tube has no blank, and a cope is not bent. */
const tabsOf = (blank: BlankAnswer | undefined): readonly (readonly [Tab, string])[] => {
  const tube = blank?.tube ?? undefined;
  return [
    ['measures', 'Measures'],
    ['flat', tube === undefined ? 'Flat' : tube.kind === 'bent' ? 'Marks' : 'Pattern'],
    ['folded', tube === undefined ? 'Folded' : 'Tube'],
    ...(tube?.kind === 'coped' ? [] : [['steps', 'Steps'] as const]),
  ];
};

const Picture = ({ blank, at }: { readonly blank: BlankAnswer; readonly at: number }) => {
  const { tab } = place.value;
  if (tab === 'folded') return <Folded blank={blank} at={at} />;
  if (tab === 'steps' && blank.tube?.kind !== 'coped') return <Steps blank={blank} />;
  if (blank.tube !== null) return <TubeMarks blank={blank} tube={blank.tube} />;
  return <Flat blank={blank} index={place.value.part} at={at} />;
};

/** One part: its measures, its picture, and what is said of it. */
export const PartView = () => {
  const index = place.value.part;
  useSketches(index);
  const answer = parts.value.get(index);
  const part = partsOf()[index];
  if (part === undefined)
    return (
      <p>
        There is no such part in this job. <a href="#/">Back to the job</a>
      </p>
    );
  const at = Math.min(chosen.value, (answer?.blanks.length ?? 1) - 1);
  const blank = answer?.blanks[at];
  const mend = (one: Mend): void => {
    const value = one.value === null ? undefined : String(one.atLeast ?? one.atMost ?? one.value);
    setInput(index, one.input, value, `${mendWords(one)}`);
  };
  return (
    <div class="part">
      <h1>
        <a href="#/" class="back">
          Job
        </a>{' '}
        {wordOf(part.name ?? part.family)} <small>{wordsOf(wordOf(part.family))}</small>
      </h1>
      <div class="picture">
        <div class="row tabs" role="group" aria-label="Picture">
          {tabsOf(blank).map(([tab, words]) => (
            <a
              key={tab}
              class={tab === 'measures' ? 'only-narrow' : ''}
              href={`#/part/${index}/${tab}`}
              aria-current={place.value.tab === tab ? 'true' : undefined}
            >
              {words}
            </a>
          ))}
          {answer !== undefined && answer.blanks.length > 1 && (
            <label>
              {blank?.tube == null ? 'Blank' : 'Piece'}
              <select
                value={String(at)}
                onChange={(e) => {
                  chosen.value = Number(e.currentTarget.value);
                }}
              >
                {answer.blanks.map((one, i) => (
                  <option key={i} value={String(i)}>
                    {titleOf(one)}
                  </option>
                ))}
              </select>
            </label>
          )}
        </div>
        {place.value.tab === 'measures' || (blank === undefined && isOneColumn.value) ? (
          <Sketches sketches={sketches.value} isZoomed={isNarrow.value} />
        ) : blank === undefined ? (
          <p class="empty" role="status">
            {answer === undefined
              ? 'Being made'
              : 'The picture comes when the measures that must be given are there.'}
          </p>
        ) : (
          <Picture blank={blank} at={at} />
        )}
      </div>
      {answer !== undefined && (
        <Fields
          fields={answer.fields}
          index={index}
          problems={answer.problems}
          findings={blank?.findings ?? []}
          sketches={sketches.value}
        />
      )}
      <div class="below">
        <Said findings={blank?.findings ?? []} problems={answer?.problems ?? []} onMend={mend} />
        {answer?.blanks.some((one) => one.foldPlan?.feasible === false) === true && (
          <Redesigns index={index} />
        )}
        {blank?.tube === null && <Fit blank={blank} index={index} at={at} />}
        {answer?.reports.map((report) => (
          <section class="said" key={report.name}>
            <h2>{report.name}</h2>
            <dl>
              {report.figures.map(({ name, value, unit }) => (
                <div key={name}>
                  <dt>{name}</dt>
                  <dd>
                    {unit === 'mm' ? lengthText(value, 1) : `${Number(value.toFixed(3))} ${unit}`}
                  </dd>
                </div>
              ))}
            </dl>
            {blank?.tube != null && <ReportTables tables={report.tables} />}
          </section>
        ))}
        <Papers
          index={index}
          tube={blank?.tube ?? null}
          isWhole={blank !== undefined && isWhole(blank)}
        />
      </div>
    </div>
  );
};
