import type { BlankAnswer } from '../core/questions.ts';
import type { Mend } from '../../model/mend.ts';
import { Fields, setInput, wordsOf } from './fields.tsx';
import { Folded, titleOf } from './folded.tsx';
import { Papers } from './papers.tsx';
import { Redesigns } from './redesigns.tsx';
import { mendWords, Said } from './said.tsx';
import { chosen, parts, partsOf, place } from './state.ts';
import { wordOf } from '../model/word-of.ts';
import { Svg } from './svg.tsx';
import { Steps } from './steps.tsx';

const TABS = [
  ['flat', 'Flat'],
  ['folded', 'Folded'],
  ['steps', 'Steps'],
] as const;

const Flat = ({ blank }: { readonly blank: BlankAnswer }) => (
  <div>
    {blank.flat === '' ? (
      <p class="empty">No blank while a finding stops the part.</p>
    ) : (
      <Svg
        picture={blank.flat}
        label={
          blank.blank === null
            ? `Blank of ${titleOf(blank)}`
            : `Blank of ${titleOf(blank)}: ${blank.blank.widthMm.toFixed(1)} by ${blank.blank.heightMm.toFixed(1)} mm, ${blank.bends.length} folds`
        }
      />
    )}
    {blank.blank !== null && (
      <p class="facts">
        Blank {blank.blank.widthMm.toFixed(1)} x {blank.blank.heightMm.toFixed(1)} mm, {blank.sheet}
        , {blank.blank.massKg.toFixed(3)} kg
        {blank.proofMm === null
          ? ''
          : `; the cut file folds to what was asked within ${Math.max(0.001, blank.proofMm).toFixed(3)} mm`}
      </p>
    )}
  </div>
);

const Picture = ({ blank }: { readonly blank: BlankAnswer }) => {
  const { tab } = place.value;
  if (tab === 'folded') return <Folded blank={blank} at={chosen.value} />;
  if (tab === 'steps') return <Steps blank={blank} />;
  return <Flat blank={blank} />;
};

const Fit = ({ blank }: { readonly blank: BlankAnswer }) => {
  if (blank.fit === null) return null;
  const list = blank.fit.measures.slice(0, MOST_FITTED);
  if (list.length === 0) return null;
  const most = Math.max(...list.map((m) => m.likely));
  return (
    <section class="said">
      <h2>How far off it may be</h2>
      <ul class="bars">
        {list.map((m) => (
          <li key={m.name}>
            <span>{m.name}</span>
            <meter min={0} max={most} value={m.likely} />
            <span>
              ±{m.likely.toFixed(1)} {m.unit === 'deg' ? '°' : 'mm'}
              {m.causes[0] === undefined ? '' : `, most by ${m.causes[0].cause}`}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
};

const MOST_FITTED = 8;

/** One part: its measures, its picture, and what is said of it. */
export const PartView = () => {
  const index = place.value.part;
  const answer = parts.value.get(index);
  const part = partsOf()[index];
  if (part === undefined)
    return (
      <p>
        There is no such part in this job. <a href="#/">Back to the job</a>
      </p>
    );
  const blank = answer?.blanks[Math.min(chosen.value, answer.blanks.length - 1)];
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
          {TABS.map(([tab, words]) => (
            <a
              key={tab}
              href={`#/part/${index}/${tab}`}
              aria-current={place.value.tab === tab ? 'true' : undefined}
            >
              {words}
            </a>
          ))}
          {answer !== undefined && answer.blanks.length > 1 && (
            <label>
              Blank
              <select
                value={String(chosen.value)}
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
        {blank === undefined ? (
          <p class="empty" role="status">
            {answer === undefined
              ? 'Being made'
              : 'The picture comes when the measures that must be given are there.'}
          </p>
        ) : (
          <Picture blank={blank} />
        )}
      </div>
      {answer !== undefined && (
        <Fields
          fields={answer.fields}
          index={index}
          problems={answer.problems}
          findings={blank?.findings ?? []}
        />
      )}
      <div class="below">
        <Said findings={blank?.findings ?? []} problems={answer?.problems ?? []} onMend={mend} />
        {answer?.blanks.some((one) => one.foldPlan?.feasible === false) === true && (
          <Redesigns index={index} />
        )}
        {blank !== undefined && <Fit blank={blank} />}
        {answer?.reports.map((report) => (
          <section class="said" key={report.name}>
            <h2>{report.name}</h2>
            <dl>
              {report.figures.map(({ name, value, unit }) => (
                <div key={name}>
                  <dt>{name}</dt>
                  <dd>
                    {Number(value.toFixed(3))} {unit}
                  </dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
        <Papers index={index} />
      </div>
    </div>
  );
};
