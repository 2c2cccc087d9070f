import { useRef } from 'preact/hooks';
import type { FindingResult } from '../../contract/part.ts';
import type { FieldAnswer } from '../core/questions.ts';
import { wordOf } from '../model/word-of.ts';
import { WORDS } from './said.tsx';
import type { InputProblem } from '../../forms/problem.ts';
import { signal } from '@preact/signals';
import { type Typed, withEntry } from '../model/job-text.ts';
import { change, jobText, partsOf } from './state.ts';

/** Inputs that a job file has beside a part's others. */
const BESIDE: ReadonlySet<string> = new Set(['name', 'hand', 'quantity']);

/** Where an input of a part stands in the job file, by the name that is written there. */
export const entryOf = (index: number, name: string): readonly (string | number)[] => {
  if (BESIDE.has(name)) return ['parts', index, name];
  const inputs = partsOf()[index]?.inputs ?? {};
  const kebab = name.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`);
  return ['parts', index, 'inputs', Object.hasOwn(inputs, kebab) ? kebab : name];
};

const writtenAt = (index: number, name: string): string => {
  const [, , ...path] = entryOf(index, name);
  let value: unknown = partsOf()[index];
  for (const step of path)
    value = (value as Record<string, unknown> | null | undefined)?.[String(step)];
  if (value === undefined || value === null) return '';
  return typeof value === 'object' ? JSON.stringify(value) : wordOf(value);
};

/** Counts the visits of fields: what is typed in one visit is one step of undo. */
let visit = 0;
/** The field that is being typed in: what is wrong with it is told when it is left. */
const typing = signal<string | undefined>(undefined);

export const setInput = (
  index: number,
  name: string,
  value: Typed,
  of?: string,
  from?: string,
): void => {
  const before = from ?? writtenAt(index, name);
  const words = `${name} ${before === '' ? 'left out' : before} -> ${value === undefined || value === '' ? 'left out' : String(value)}`;
  change(
    withEntry(jobText.value, entryOf(index, name), value === '' ? undefined : value),
    words,
    of,
  );
};

const TextField = ({ field, index, problem }: FieldProps) => {
  const session = useRef({ of: '', from: '' });
  const id = `in-${field.name}`;
  const value = writtenAt(index, field.name);
  const isTyping = typing.value === field.name;
  const shown = problem !== undefined && !isTyping && problem.given !== 'nothing';
  const isLong = field.kind === 'holes' || value.length > 40;
  const common = {
    id,
    value,
    'aria-describedby': `${id}-said`,
    'aria-invalid': shown ? ('true' as const) : undefined,
    autoComplete: 'off',
    spellcheck: false,
    placeholder:
      field.default !== undefined ? String(field.default) : field.required ? '' : field.example,
    onFocus: () => {
      visit++;
      session.current = { of: `${index}.${field.name}.${visit}`, from: value };
      typing.value = field.name;
    },
    onBlur: () => {
      typing.value = undefined;
    },
    onInput: (e: { readonly currentTarget: HTMLInputElement | HTMLTextAreaElement }) =>
      setInput(index, field.name, e.currentTarget.value, session.current.of, session.current.from),
  };
  return (
    <>
      {isLong ? (
        <textarea {...common} rows={Math.min(6, 1 + value.split(/\n|;/).length)} />
      ) : (
        <input {...common} inputMode={field.kind === 'count' ? 'numeric' : 'text'} />
      )}
      <p id={`${id}-said`} class={shown ? 'wrong' : 'means'}>
        {shown
          ? `${problem.given}; allowed: ${problem.allowed}.${problem.mend === undefined ? '' : ` ${problem.mend}`}`
          : problem !== undefined && problem.given !== 'nothing'
            ? 'not finished'
            : field.means === undefined
              ? unitWords(field)
              : `= ${field.means}`}
      </p>
    </>
  );
};

const unitWords = ({ kind, otherwise, required }: FieldAnswer): string =>
  [
    kind === 'length' || kind === 'thickness' ? 'mm' : kind === 'angle' ? 'degrees' : '',
    required ? '' : (otherwise ?? ''),
  ]
    .filter((word) => word !== '')
    .join('; left out: ');

interface FieldProps {
  readonly field: FieldAnswer;
  readonly index: number;
  readonly problem: InputProblem | undefined;
  /** What is said of the part because of this input. */
  readonly findings: readonly FindingResult[];
}

const ChoiceField = ({ field, index }: FieldProps) => (
  <select
    id={`in-${field.name}`}
    value={writtenAt(index, field.name)}
    onChange={(e) => setInput(index, field.name, e.currentTarget.value)}
  >
    <option value="">
      {field.default === undefined ? 'as usual' : `${String(field.default)} (usual)`}
    </option>
    {field.choices?.map((choice) => (
      <option key={choice} value={choice}>
        {choice}
      </option>
    ))}
  </select>
);

const FlagField = ({ field, index }: FieldProps) => (
  <input
    id={`in-${field.name}`}
    type="checkbox"
    checked={(writtenAt(index, field.name) || String(field.default ?? '')) === 'true'}
    onChange={(e) => setInput(index, field.name, e.currentTarget.checked)}
  />
);

const FieldRow = (props: FieldProps) => {
  const { field } = props;
  const Input =
    field.kind === 'flag' ? FlagField : field.choices === undefined ? TextField : ChoiceField;
  return (
    <div class={`field ${field.applies ? '' : 'idle'}`}>
      <label for={`in-${field.name}`}>{wordsOf(field.name)}</label>
      <Input {...props} />
      {props.findings.map(({ rule, severity, message }) => (
        <p key={rule + message} class={severity === 'stop' ? 'wrong' : 'means'}>
          <span aria-hidden="true">{WORDS[severity][0]}</span> {WORDS[severity][1]}: {message}
        </p>
      ))}
      <details>
        <summary aria-label={`About ${wordsOf(field.name)}`}>?</summary>
        <p>
          {field.about} Allowed: {field.allowed}.
        </p>
        {field.notation?.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </details>
    </div>
  );
};

/** `legA` -> `leg A`. */
export const wordsOf = (name: string): string =>
  name.replace(/([A-Z])/g, (c, _, at: number) =>
    at === name.length - 1 ? ` ${c}` : ` ${c.toLowerCase()}`,
  );

/** What is asked of every part before it is cut, whether or not it has a usual answer. */
const FIRST: ReadonlySet<string> = new Set(['material', 'hand', 'quantity']);

const nameOf = ({ input }: InputProblem): string =>
  input.replace(/^parts\[\d+\]\.(?:inputs\.)?/, '').split(/[.[]/)[0] ?? '';

/** All inputs of a part: what must be given first, the rest in its groups. */
export const Fields = ({
  fields,
  index,
  problems,
  findings,
}: {
  readonly fields: readonly FieldAnswer[];
  readonly index: number;
  readonly problems: readonly InputProblem[];
  readonly findings: readonly FindingResult[];
}) => {
  const wrong = new Map(problems.map((p) => [nameOf(p), p]));
  const isFirst = ({ required, name }: FieldAnswer): boolean => required || FIRST.has(name);
  const needed = fields.filter(isFirst);
  const findingsOf = (name: string) =>
    findings.filter(
      ({ severity, inputs }) => severity !== 'note' && inputs?.includes(name) === true,
    );
  const groups = new Map<string, FieldAnswer[]>();
  for (const field of fields.filter((one) => !isFirst(one))) {
    const group = field.group ?? 'More';
    groups.set(group, [...(groups.get(group) ?? []), field]);
  }
  const isAsking = ({ name }: FieldAnswer): boolean =>
    wrong.has(name) || findingsOf(name).length > 0;
  const row = (field: FieldAnswer) => (
    <FieldRow
      key={field.name}
      field={field}
      index={index}
      problem={wrong.get(field.name)}
      findings={findingsOf(field.name)}
    />
  );
  return (
    <form class="fields" onSubmit={(e) => e.preventDefault()}>
      <fieldset>
        <legend>Measures</legend>
        {needed.map(row)}
      </fieldset>
      {[...groups].map(([group, list]) => {
        const given = list.filter(({ name }) => writtenAt(index, name) !== '');
        return (
          <details
            key={group}
            class="group"
            // Opened where something in it is to be mended, and never closed under the hand that
            // has just mended it.
            ref={(group) => {
              if (group !== null && list.some(isAsking)) group.open = true;
            }}
          >
            <summary>
              {group}
              {given.length > 0 && (
                <span class="means">
                  {' '}
                  {given.map(({ name }) => `${wordsOf(name)} ${writtenAt(index, name)}`).join(', ')}
                </span>
              )}
            </summary>
            {list.map(row)}
          </details>
        );
      })}
    </form>
  );
};
