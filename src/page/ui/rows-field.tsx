import { useRef, useState } from 'preact/hooks';
import {
  COLUMNS,
  figureIn,
  lineOf,
  NEW_ROW,
  type Row,
  type RowKind,
  rowsOf,
  splitSides,
  textOf,
  withFigure,
} from '../model/entries.ts';
import type { FieldAnswer } from '../core/questions.ts';
import { atWork, type FieldProps, leave, TextField, Told } from './text-field.tsx';
import { focused } from './focus.ts';
import { newVisit, setInput, setLines, valueAt, writtenAt } from './inputs.ts';
import { wordsOf } from '../model/words-of.ts';
import { rowKindOf } from './row-kind.ts';
import { Residual, Sides } from './tape.tsx';

/** The words over the columns: holes are measured from what their panel has. */
const columnsOf = (field: FieldAnswer, kind: RowKind): readonly string[] => {
  const axes = field.axes?.length === 1 ? field.axes[0] : undefined;
  return kind === 'holes' && axes !== undefined
    ? [
        ...axes.map(({ from, isDirection }) => (isDirection === true ? from : `from ${from}`)),
        'size',
      ]
    : COLUMNS[kind];
};

/** Whether a text tells distances: names with a hyphen between them. */
const isTape = (text: string): boolean => /^\s*[^\s:;,-][^:;,\n-]*-[^:;,\n]+:/u.test(text);

interface Listed {
  readonly kind: RowKind;
  readonly rows: readonly Row[];
  readonly sides: readonly string[];
  /** Whether the file has a list of lines. */
  readonly isList: boolean;
}

/** What is written as rows; `undefined` where only a text can show it. */
const listedOf = (
  field: FieldAnswer,
  index: number,
  begun: RowKind | undefined,
): Listed | undefined => {
  const kind = rowKindOf(field);
  if (kind === undefined) return undefined;
  const value = valueAt(index, field.name);
  if (kind === 'flanges') {
    if (value !== undefined && value !== null && !Array.isArray(value)) return undefined;
    const lines: readonly unknown[] = Array.isArray(value) ? value : [];
    if (!lines.every((line) => typeof line === 'string')) return undefined;
    const rows = lines.map((line) => rowsOf('flanges', line)?.[0]);
    return rows.every((row) => row !== undefined)
      ? { kind, rows, sides: [], isList: true }
      : undefined;
  }
  if (typeof value === 'object' && value !== null) return undefined;
  const text = writtenAt(index, field.name);
  if (kind === 'points' && (isTape(text) || (text === '' && begun === 'distances'))) {
    const { distances, sides } = splitSides(text);
    const rows = rowsOf('distances', distances);
    return rows && { kind: 'distances', rows, sides, isList: false };
  }
  const rows = rowsOf(kind, text);
  return rows && { kind, rows, sides: [], isList: false };
};

/** Holes, points, distances or flanges as rows with fields, in the notation of the command. */
export const RowsField = (props: FieldProps) => {
  const { field, index, problem } = props;
  const session = useRef({ of: '', from: '' });
  const [isText, setText] = useState(false);
  const [begun, setBegun] = useState<RowKind | undefined>(undefined);
  const listed = listedOf(field, index, begun);
  if (listed === undefined || isText)
    return (
      <>
        <TextField {...props} />
        {listed !== undefined && (
          <button type="button" class="aside" onClick={() => setText(false)}>
            As a table
          </button>
        )}
      </>
    );
  const { kind, rows, sides, isList } = listed;
  const write = (
    next: readonly Row[],
    nextSides = sides,
    of = newVisit(index, field.name),
  ): void => {
    if (isList)
      setLines(
        index,
        field.name,
        next.map((row) => lineOf(kind, row)),
        of,
      );
    else
      setInput(
        index,
        field.name,
        [textOf(kind, next), ...nextSides].filter((t) => t !== '').join(', '),
        of,
        session.current.from,
      );
  };
  const begin = (): void => {
    session.current = { of: newVisit(index, field.name), from: writtenAt(index, field.name) };
    focused.value = field.name;
    atWork(field.name);
  };
  const add = (as: RowKind): void => {
    if (as !== kind) setBegun(as);
    session.current = { of: '', from: writtenAt(index, field.name) };
    const fresh = NEW_ROW[as];
    const text = as === kind ? [...rows, rows.at(-1) ?? fresh] : [fresh];
    if (as === kind) write(text);
    else setInput(index, field.name, textOf(as, text), newVisit(index, field.name));
  };
  const adding = `Add a ${kind === 'distances' ? 'distance' : (field.list?.one ?? 'row')}`;
  return (
    <div class="rows" id={`rows-${field.name}`}>
      {rows.length > 0 && (
        <RowsTable
          {...{ field, index, kind, rows }}
          onFocus={begin}
          onWrite={(next) => {
            atWork(field.name);
            write(next, sides, session.current.of);
          }}
          onChange={(next) => {
            session.current = { of: '', from: writtenAt(index, field.name) };
            write(next);
          }}
        />
      )}
      <Told field={field} problem={problem} />
      {kind === 'distances' && (
        <Sides field={field} sides={sides} onSides={(next) => write(rows, next)} />
      )}
      <div class="row small">
        <button
          type="button"
          id={rows.length === 0 ? `in-${field.name}` : undefined}
          aria-label={`${adding} to ${wordsOf(field.name)}`}
          onClick={() => add(kind)}
        >
          {adding}
        </button>
        {kind === 'points' && rows.length === 0 && (
          <button type="button" onClick={() => add('distances')}>
            Add a tape distance
          </button>
        )}
        {!isList && (
          <button
            type="button"
            onClick={() => setText(true)}
            aria-label={`${wordsOf(field.name)} as text`}
          >
            As text
          </button>
        )}
      </div>
    </div>
  );
};

interface TableProps {
  readonly field: FieldAnswer;
  readonly index: number;
  readonly kind: RowKind;
  readonly rows: readonly Row[];
  readonly onFocus: () => void;
  /** While typing. */
  readonly onWrite: (rows: readonly Row[]) => void;
  /** A step of its own. */
  readonly onChange: (rows: readonly Row[]) => void;
}

/** Arrow keys move a figure by so much, mm. */
const STEP = 1;
const COARSE = 5;

const RowsTable = ({ field, kind, rows, onFocus, onWrite, onChange }: TableProps) => {
  const columns = columnsOf(field, kind);
  const put = (at: number, column: number, cell: string): readonly Row[] =>
    rows.map((row, i) => (i === at ? row.map((old, k) => (k === column ? cell : old)) : row));
  const moved = (at: number, to: number): readonly Row[] => {
    const next = [...rows];
    next.splice(to, 0, ...next.splice(at, 1));
    return next;
  };
  const called = (at: number): string => `${field.list?.one ?? 'row'} ${at + 1}`;
  return (
    <table class={`figures ${kind}`}>
      <thead>
        <tr>
          {columns.map((column) => (
            <th scope="col" key={column}>
              {column}
            </th>
          ))}
          <th scope="col">
            <span class="unseen">{kind === 'distances' ? 'off' : 'order'}</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row, i) => (
          <tr key={i}>
            {row.map((cell, k) => (
              <td key={k}>
                <input
                  id={i === 0 && k === 0 ? `in-${field.name}` : undefined}
                  aria-label={`${wordsOf(field.name)} ${called(i)}: ${columns[k] ?? ''}`}
                  value={cell}
                  autoComplete="off"
                  spellcheck={false}
                  onFocus={onFocus}
                  onBlur={leave}
                  onInput={(e) => onWrite(put(i, k, e.currentTarget.value))}
                  onKeyDown={(e) => {
                    const figure = figureIn(cell);
                    const way = { ArrowUp: 1, ArrowDown: -1 }[e.key];
                    if (way === undefined || figure === undefined) return;
                    e.preventDefault();
                    const by = way * (e.shiftKey ? COARSE : STEP);
                    onWrite(put(i, k, withFigure(cell, figure + by)));
                  }}
                />
              </td>
            ))}
            <td class="row small">
              {kind === 'distances' && <Residual field={field} at={i} />}
              <button
                type="button"
                aria-label={`Move ${called(i)} up`}
                disabled={i === 0}
                onClick={() => onChange(moved(i, i - 1))}
              >
                ↑
              </button>
              <button
                type="button"
                aria-label={`Take out ${called(i)}`}
                onClick={() => onChange(rows.filter((_, at) => at !== i))}
              >
                ×
              </button>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
};
