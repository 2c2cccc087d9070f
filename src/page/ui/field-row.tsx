import type { FieldAnswer } from '../core/questions.ts';
import { setInput, writtenAt } from './inputs.ts';
import { wordsOf } from '../model/words-of.ts';
import { rowKindOf } from './row-kind.ts';
import { RowsField } from './rows-field.tsx';
import { WORDS } from './said.tsx';
import { type FieldProps, TextField } from './text-field.tsx';

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

const inputFor = (field: FieldAnswer) =>
  rowKindOf(field) !== undefined
    ? RowsField
    : field.kind === 'flag'
      ? FlagField
      : field.choices === undefined
        ? TextField
        : ChoiceField;

/** One input: its letter and name, its field, what is told of it, and what it is. */
export const FieldRow = (props: FieldProps & { readonly letter: string | undefined }) => {
  const { field, findings, letter } = props;
  const Input = inputFor(field);
  return (
    <div class={`field ${field.applies ? '' : 'idle'}`} data-input={field.name}>
      <label for={`in-${field.name}`}>
        {letter !== undefined && <b class="letter">{letter}</b>}
        <span>{wordsOf(field.name)}</span>
      </label>
      <Input {...props} />
      {findings.map(({ rule, severity, message }) => (
        <p key={rule + message} class={severity === 'stop' ? 'wrong' : 'means'}>
          <span aria-hidden="true">{WORDS[severity][0]}</span> {WORDS[severity][1]}: {message}
        </p>
      ))}
      <details class="about">
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
