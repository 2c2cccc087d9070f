import type { FindingResult } from '../../contract/part.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { SketchAnswer } from '../core/drawn-questions.ts';
import type { FieldAnswer } from '../core/questions.ts';
import { FieldRow } from './field-row.tsx';
import { writtenAt } from './inputs.ts';
import { wordsOf } from '../model/words-of.ts';
import { Sketches } from './sketches.tsx';

/** What is asked of every part before it is cut, whether or not it has a usual answer. */
const FIRST: ReadonlySet<string> = new Set(['material', 'hand', 'quantity']);

const nameOf = ({ input }: InputProblem): string =>
  input.replace(/^parts\[\d+\]\.(?:inputs\.)?/, '').split(/[.[]/)[0] ?? '';

/** The group in which the page shows an input: small blocks that belong together are one. */
const TOGETHER: Readonly<Record<string, string>> = {
  Sizes: 'Shape',
  'Other holes': 'Holes',
  'Free corners': 'Corners',
  'Reliefs and gaps': 'Corners',
  Sheet: 'Sheet and bend',
  Bends: 'Sheet and bend',
  'In place of bends': 'Making',
};

/** Groups of every family come behind its own, in this order. */
const LAST = ['Holes', 'Corners', 'Sheet and bend', 'Making'];

const groupOf = ({ group = 'More' }: FieldAnswer): string => TOGETHER[group] ?? group;

const groupsOf = (fields: readonly FieldAnswer[]): (readonly [string, FieldAnswer[]])[] => {
  const groups = new Map<string, FieldAnswer[]>();
  for (const field of fields)
    groups.set(groupOf(field), [...(groups.get(groupOf(field)) ?? []), field]);
  return [...groups].toSorted(([a], [b]) => LAST.indexOf(a) - LAST.indexOf(b));
};

/** What of a closed group is not as it would be by itself. */
const differing = (fields: readonly FieldAnswer[], index: number): string =>
  fields
    .map((field) => [field, writtenAt(index, field.name)] as const)
    .filter(([field, text]) => text !== '' && text !== String(field.default ?? ''))
    .map(([{ name, list }, text]) =>
      text.length > 24 ? `${wordsOf(name)} (${list?.many ?? 'given'})` : `${wordsOf(name)} ${text}`,
    )
    .join(', ');

/** All inputs of a part: what must be given first, the rest in its groups. */
export const Fields = ({
  fields,
  index,
  problems,
  findings,
  sketches,
}: {
  readonly fields: readonly FieldAnswer[];
  readonly index: number;
  readonly problems: readonly InputProblem[];
  readonly findings: readonly FindingResult[];
  readonly sketches: readonly SketchAnswer[];
}) => {
  const wrong = new Map(problems.map((p) => [nameOf(p), p]));
  const isFirst = ({ required, name }: FieldAnswer): boolean => required || FIRST.has(name);
  const findingsOf = (name: string) =>
    findings.filter(
      ({ severity, inputs }) => severity !== 'note' && inputs?.includes(name) === true,
    );
  const isAsking = ({ name }: FieldAnswer): boolean =>
    wrong.has(name) || findingsOf(name).length > 0;
  const letters = Object.assign({}, ...sketches.map((s) => s.letters)) as Record<string, string>;
  const row = (field: FieldAnswer) => (
    <FieldRow
      key={field.name}
      field={field}
      index={index}
      letter={letters[field.name]}
      problem={wrong.get(field.name)}
      findings={findingsOf(field.name)}
    />
  );
  // A family that asks for nothing in particular is begun with its first group.
  const isFree = !fields.some(({ required, common }) => required && !common);
  return (
    <form class="fields" onSubmit={(e) => e.preventDefault()}>
      <div class="beside-fields">
        <Sketches sketches={sketches} />
      </div>
      <fieldset>
        <legend>Measures</legend>
        {fields.filter(isFirst).map(row)}
      </fieldset>
      {groupsOf(fields.filter((one) => !isFirst(one))).map(([group, list], i) => (
        <details
          key={group}
          class="group"
          // Opened where something in it is to be mended, and never closed under the hand that
          // has just mended it.
          ref={(group) => {
            if (
              group === null ||
              !(list.some(isAsking) || (isFree && i === 0 && !group.dataset['seen']))
            )
              return;
            group.open = true;
            group.dataset['seen'] = 'yes';
          }}
        >
          <summary>
            {group} <span class="means">{differing(list, index)}</span>
          </summary>
          {list.map(row)}
        </details>
      ))}
    </form>
  );
};
