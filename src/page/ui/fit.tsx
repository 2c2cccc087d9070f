import { signal } from '@preact/signals';
import type { FitMeasure } from '../../contract/fit.ts';
import type { ProvedAnswer } from '../core/drawn-questions.ts';
import type { BlankAnswer } from '../core/questions.ts';
import { ProblemLine } from './said.tsx';
import { askLong } from './work.ts';
import { jobText, partAsk } from './state.ts';
import { lengthText } from './units.ts';

const MOST_FITTED = 12;

const offText = ({ likely, unit }: FitMeasure): string =>
  unit === 'deg' ? `±${likely.toFixed(1)}°` : `±${lengthText(likely, 1)}`;

const askedText = ({ asked, unit }: FitMeasure): string =>
  unit === 'deg' ? `${asked}°` : lengthText(asked, 1);

const percent = (share: number): string => `${Math.round(share * 100)} %`;

/** What was found of a DXF that was dropped, and for which text of the job. */
const proved = signal<
  { readonly of: string; readonly name: string; readonly answer: ProvedAnswer } | undefined
>(undefined);

const proveFile = async (index: number, at: number, file: File | undefined): Promise<void> => {
  if (file === undefined) return;
  const of = `${index} ${at} ${jobText.value}`;
  const bytes = new Uint8Array(await file.arrayBuffer());
  const answer = await askLong(
    'proved',
    { ...partAsk(index), blank: at, name: file.name, bytes },
    {
      what: `Proof of ${file.name}`,
      left: 'Nothing is said of the file.',
      again: () => void proveFile(index, at, file),
    },
  );
  if (answer !== undefined) proved.value = { of, name: file.name, answer };
};

const Proved = ({ name, answer }: { readonly name: string; readonly answer: ProvedAnswer }) => {
  const { problems, findings, worstMm, measures } = answer;
  const isGood = problems.length === 0 && !findings.some(({ severity }) => severity === 'stop');
  return (
    <div class={`said ${isGood ? '' : 'stop'}`} role="status">
      <h3>
        {isGood ? '✓' : '✕'} {name}{' '}
        {isGood ? 'folds up to what was asked' : 'does not fold up to what was asked'}
      </h3>
      {problems.length > 0 && (
        <ul>
          {problems.map((p) => (
            <ProblemLine key={p.input} problem={p} />
          ))}
        </ul>
      )}
      {worstMm !== null && <p>Worst difference {lengthText(worstMm, 3)}.</p>}
      {findings.length > 0 && (
        <ul>
          {findings.map(({ rule, message }, i) => (
            <li key={`${rule}${i}`}>{message}</li>
          ))}
        </ul>
      )}
      {measures.length > 0 && (
        <table class="figures">
          <thead>
            <tr>
              <th scope="col">Measure</th>
              <th scope="col">asked</th>
              <th scope="col">in the file</th>
            </tr>
          </thead>
          <tbody>
            {measures.map((m, i) => (
              <tr key={`${m.name}${i}`}>
                <th scope="row">{m.name}</th>
                <td>{lengthText(m.asked, 3)}</td>
                <td>{m.found === null ? 'not found' : lengthText(m.found, 3)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </div>
  );
};

/** How far off each measure may come out and why, and a file of anybody's held to the part. */
export const Fit = ({
  blank,
  index,
  at,
}: {
  readonly blank: BlankAnswer;
  readonly index: number;
  readonly at: number;
}) => {
  const list = blank.fit?.measures.slice(0, MOST_FITTED) ?? [];
  const most = (unit: FitMeasure['unit']): number =>
    Math.max(...list.filter((m) => m.unit === unit).map((m) => m.likely)) || 1;
  const known = proved.value?.of === `${index} ${at} ${jobText.value}` ? proved.value : undefined;
  return (
    <section
      class="said"
      onDragOver={(e) => e.preventDefault()}
      onDrop={(e) => {
        e.preventDefault();
        void proveFile(index, at, e.dataTransfer?.files[0]);
      }}
    >
      {list.length > 0 && (
        <>
          <h2>How far off it may be</h2>
          <ul class="bars">
            {list.map((m) => (
              <li key={m.name}>
                <span>
                  {m.called ?? m.name} {askedText(m)} <b>{offText(m)}</b>
                </span>
                <meter
                  min={0}
                  max={most(m.unit)}
                  value={m.likely}
                  aria-label={m.called ?? m.name}
                />
                <span class="means">
                  {m.causes[0] === undefined
                    ? 'nothing moves it'
                    : `${percent(m.causes[0].share)} by ${m.causes[0].cause}`}
                </span>
              </li>
            ))}
          </ul>
        </>
      )}
      {blank.blank !== null && (
        <>
          <h2>Is a file for this part right?</h2>
          <p>
            <label>
              Drop a DXF of this blank here, or choose one: it is folded up and compared with what
              was asked.{' '}
              <input
                type="file"
                accept=".dxf"
                onChange={(e) => void proveFile(index, at, e.currentTarget.files?.[0] ?? undefined)}
              />
            </label>
          </p>
          {known !== undefined && <Proved {...known} />}
        </>
      )}
    </section>
  );
};
