import { signal } from '@preact/signals';
import { useRef } from 'preact/hooks';
import type { FindingResult } from '../../contract/part.ts';
import type { InputProblem } from '../../forms/problem.ts';
import { printedIn } from '../../text/printed.ts';
import { figure } from '../../text/figures.ts';
import type { FieldAnswer } from '../core/questions.ts';
import { focused } from './focus.ts';
import { newVisit, setInput, writtenAt } from './inputs.ts';
import { lengthText, told, unit } from './units.ts';

/** The field that is being typed in: what is wrong with it is told when it is left, or after a rest. */
export const typing = signal<string | undefined>(undefined);
const REST_MS = 1800;
let rest: ReturnType<typeof setTimeout> | undefined;

/** Somebody is at a field: nothing is told of it until it is left, or the hand rests. */
export const atWork = (name: string): void => {
  typing.value = name;
  clearTimeout(rest);
  rest = setTimeout(() => {
    typing.value = undefined;
  }, REST_MS);
};

export const leave = (): void => {
  clearTimeout(rest);
  typing.value = undefined;
  focused.value = undefined;
};

export interface FieldProps {
  readonly field: FieldAnswer;
  readonly index: number;
  readonly problem: InputProblem | undefined;
  /** What is said of the part because of this input. */
  readonly findings: readonly FindingResult[];
}

/** What was read of a text, where that is not what is written: `= 63.5 mm`. */
export const meaningOf = ({ kind, figure: value, given }: FieldAnswer): string | undefined => {
  if (value === undefined || given === undefined || given === '') return undefined;
  const isPlain = String(given).trim() === String(value);
  if (kind === 'angle') return isPlain ? undefined : `= ${figure(value, 3)}°`;
  if (kind !== 'length' && kind !== 'thickness') return undefined;
  if (unit.value === 'inch') return `= ${lengthText(value)}`;
  return isPlain ? undefined : `= ${printedIn('mm').tape(value, 3)} mm`;
};

const unitWords = ({ kind, otherwise, required }: FieldAnswer): string =>
  [
    kind === 'length' || kind === 'thickness'
      ? unit.value === 'mm'
        ? 'mm'
        : 'mm, or inches as 2 1/2"'
      : kind === 'angle'
        ? 'degrees'
        : '',
    required ? '' : (otherwise ?? ''),
  ]
    .filter((word) => word !== '')
    .join('; left out: ');

/** Below a field: what it means, that it is not finished, or what is wrong with it. */
export const Told = ({ field, problem }: Pick<FieldProps, 'field' | 'problem'>) => {
  const isTyping = typing.value === field.name;
  const isOpen = problem !== undefined && problem.given !== 'nothing';
  return (
    <p id={`in-${field.name}-said`} class={isOpen && !isTyping ? 'wrong' : 'means'}>
      {!isOpen
        ? (meaningOf(field) ?? unitWords(field))
        : isTyping
          ? 'not finished'
          : `${problem.given}; allowed: ${told(problem.allowed)}.${problem.mend === undefined ? '' : ` ${told(problem.mend)}`}`}
    </p>
  );
};

export const TextField = ({ field, index, problem }: FieldProps) => {
  const session = useRef({ of: '', from: '' });
  const id = `in-${field.name}`;
  const value = writtenAt(index, field.name);
  const isWrong =
    problem !== undefined && typing.value !== field.name && problem.given !== 'nothing';
  const common = {
    id,
    value,
    'aria-describedby': `${id}-said`,
    'aria-invalid': isWrong ? ('true' as const) : undefined,
    autoComplete: 'off',
    spellcheck: false,
    placeholder:
      field.default !== undefined ? String(field.default) : field.required ? '' : field.example,
    onFocus: () => {
      session.current = { of: newVisit(index, field.name), from: value };
      focused.value = field.name;
      atWork(field.name);
    },
    onBlur: leave,
    onInput: (e: { readonly currentTarget: HTMLInputElement | HTMLTextAreaElement }) => {
      atWork(field.name);
      setInput(index, field.name, e.currentTarget.value, session.current.of, session.current.from);
    },
  };
  const isLong = field.kind === 'holes' || value.length > 40;
  return (
    <>
      {isLong ? (
        <textarea {...common} rows={Math.min(6, 1 + value.split(/\n|;/).length)} />
      ) : (
        <input {...common} inputMode={field.kind === 'count' ? 'numeric' : 'text'} />
      )}
      <Told field={field} problem={problem} />
    </>
  );
};
