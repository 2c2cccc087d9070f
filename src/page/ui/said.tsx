import { capital } from '../../text/capital.ts';
import type { FindingResult } from '../../contract/part.ts';
import type { InputProblem } from '../../forms/problem.ts';
import { wordsOf } from '../model/words-of.ts';
import { told } from './units.ts';
import type { Mend } from '../../model/mend.ts';

/** A mistake in what was typed: what was given, what is allowed, the mend. */
export const ProblemLine = ({ problem }: { readonly problem: InputProblem }) => (
  <li>
    <strong>{inputWords(problem)}</strong>:{' '}
    {problem.given === 'nothing' ? 'not given yet' : `given ${problem.given}`}; allowed:{' '}
    {told(problem.allowed)}.{problem.mend === undefined ? '' : ` ${capital(told(problem.mend))}.`}
  </li>
);

const inputWords = ({ input }: InputProblem): string =>
  wordsOf(input.replace(/^parts\[\d+\]\.(?:inputs\.)?/, ''));

/** The mark and the word of each kind of finding. */
export const WORDS = {
  stop: ['✕', 'Stops it'],
  warn: ['!', 'Warning'],
  note: ['i', 'Note'],
} as const;

const isCaution = ({ rule }: FindingResult): boolean => rule.startsWith('caution-');

/** What a button does about a finding, in words. */
export const mendWords = ({ input, atLeast, atMost, value }: Mend): string =>
  value === null ? `Leave out ${input}` : `${input} ${atLeast ?? atMost ?? value}`;

const FindingLine = ({
  finding,
  number,
  onMend,
}: {
  readonly finding: FindingResult;
  readonly number: number;
  readonly onMend: (mend: Mend) => void;
}) => {
  const [mark, word] = WORDS[finding.severity];
  return (
    <li class={finding.severity}>
      <p>
        <span class="mark" aria-hidden="true">
          {mark}
        </span>{' '}
        <strong>
          {word}
          {number === 0 ? '' : ` ${number}`}
        </strong>{' '}
        {finding.message}
      </p>
      {finding.mends !== undefined && finding.mends.length > 0 && (
        <div class="row small">
          {finding.mends.map((mend) => (
            <button type="button" key={mendWords(mend)} onClick={() => onMend(mend)}>
              {mendWords(mend)}
            </button>
          ))}
        </div>
      )}
    </li>
  );
};

const inOrder = (findings: readonly FindingResult[]): FindingResult[] =>
  (['stop', 'warn', 'note'] as const).flatMap((severity) =>
    findings.filter((f) => f.severity === severity && !isCaution(f)),
  );

/** Everything that is said of a part: cautions first and always open, then stops, warnings, notes. */
export const Said = ({
  findings,
  problems,
  onMend,
}: {
  readonly findings: readonly FindingResult[];
  readonly problems: readonly InputProblem[];
  readonly onMend: (mend: Mend) => void;
}) => {
  const cautions = findings.filter(isCaution);
  const ordered = inOrder(findings);
  const missing = problems.filter(({ given }) => given === 'nothing');
  let placed = 0;
  return (
    <section class="said-list" aria-label="What is said of this part">
      {cautions.length > 0 && (
        <div class="said caution">
          <h2>Take care</h2>
          <ul>
            {cautions.map(({ rule, message }) => (
              <li key={rule}>{message}</li>
            ))}
          </ul>
        </div>
      )}
      {problems.length > 0 && (
        <div class="said warn">
          <h2>Still to be given or mended</h2>
          {missing.length > 0 && <p>To be given: {missing.map(inputWords).join(', ')}.</p>}
          <ul>
            {problems
              .filter((p) => !missing.includes(p))
              .map((p, i) => (
                <ProblemLine key={`${p.input}${i}`} problem={p} />
              ))}
          </ul>
        </div>
      )}
      {ordered.length > 0 && (
        <div class="said">
          <h2>Said of it</h2>
          <ul class="findings">
            {ordered.map((finding, i) => (
              <FindingLine
                key={`${finding.rule}${i}`}
                finding={finding}
                number={finding.at === undefined ? 0 : ++placed}
                onMend={onMend}
              />
            ))}
          </ul>
        </div>
      )}
    </section>
  );
};
