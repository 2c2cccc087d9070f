import { useState } from 'preact/hooks';
import type { ShopColumn, ShopTable } from '../core/shop-questions.ts';
import { wordsOf } from '../model/words-of.ts';
import { changeShop } from './shop-state.ts';
import { isOneColumn } from './state.ts';
import { told } from './units.ts';

/** More columns than these are no table: each row is a block of named fields. */
const MOST_ACROSS = 6;

const headOf = ({ name }: ShopColumn): string => wordsOf(name.replace('.', ' '));

/** A list of the shop file as rows of fields, each with what is wrong with it below. */
export const EntriesTable = ({ table }: { readonly table: ShopTable }) => {
  const { title, about, columns, rows, isOwn } = table;
  const [hasNew, setNew] = useState(false);
  const [why, setWhy] = useState<string | undefined>(undefined);
  const shown = hasNew ? [...rows, columns.map(() => '')] : rows;
  return (
    <details class="group entries">
      <summary>
        {title}{' '}
        <small>
          {rows.length === 0 ? 'none' : `${rows.length}`}
          {isOwn ? '' : ', assumed'}
        </small>
      </summary>
      <p class="means">{told(about)}</p>
      {shown.length > 0 && (
        <table
          class={
            isOneColumn.value || columns.length > MOST_ACROSS
              ? 'figures entries stacked'
              : 'figures entries'
          }
        >
          <caption class="unseen">{title}</caption>
          <thead>
            <tr>
              {columns.map((column) => (
                <th scope="col" key={column.name} title={column.about}>
                  {headOf(column)}
                </th>
              ))}
              <th scope="col">
                <span class="unseen">take out</span>
              </th>
            </tr>
          </thead>
          {shown.map((row, i) => (
            <Row
              key={i}
              table={table}
              row={row}
              at={i}
              onWritten={() => setNew(false)}
              onOut={(refused) => {
                setNew(false);
                setWhy(refused);
              }}
            />
          ))}
        </table>
      )}
      {why !== undefined && (
        <p class="wrong" role="status">
          {told(why)}
        </p>
      )}
      <button type="button" disabled={hasNew} onClick={() => setNew(true)}>
        Add a row<span class="unseen"> to {title}</span>
      </button>
    </details>
  );
};

const Row = ({
  table: { path, title, columns, rows },
  row,
  at,
  onWritten,
  onOut,
}: {
  readonly table: ShopTable;
  readonly row: readonly string[];
  readonly at: number;
  readonly onWritten: () => void;
  readonly onOut: (why: string | undefined) => void;
}) => {
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({});
  const [why, setWhy] = useState<string | undefined>(undefined);
  const id = `row-${path.join('-')}-${at}`;
  const called = `${title}, row ${at + 1}`;
  const put = (name: string, cell: string): void => {
    const cells = { ...typed, [name]: cell };
    setTyped(cells);
    const change = { kind: 'row', path, row: at, cells } as const;
    void changeShop(change, `${called}: ${wordsOf(name)} ${cell}`, `${id} ${name}`).then(
      (refused) => {
        setWhy(refused);
        if (refused === undefined) onWritten();
      },
    );
  };
  const takeOut = (): void => {
    // One that was never written goes by itself.
    if (at >= rows.length) onOut(undefined);
    else void changeShop({ kind: 'row out', path, row: at }, `take out ${called}`).then(onOut);
    setTyped({});
    setWhy(undefined);
  };
  return (
    <tbody
      onFocusOut={() => {
        if (why === undefined) setTyped({});
      }}
    >
      <tr>
        {columns.map((column, k) => (
          <td key={column.name} data-head={headOf(column)}>
            <Cell
              column={column}
              label={`${called}: ${headOf(column)}`}
              value={typed[column.name] ?? row[k] ?? ''}
              isWrong={why !== undefined}
              said={`${id}-said`}
              onPut={(cell) => put(column.name, cell)}
            />
          </td>
        ))}
        <td>
          <button type="button" aria-label={`Take out ${called}`} onClick={takeOut}>
            Take out
          </button>
        </td>
      </tr>
      <tr class={why === undefined ? 'none' : ''}>
        <td colSpan={columns.length + 1}>
          <p id={`${id}-said`} class="wrong" role="status">
            {why === undefined ? '' : `Not written yet. ${told(why)}`}
          </p>
        </td>
      </tr>
    </tbody>
  );
};

const Cell = ({
  column: { choices, isRequired },
  label,
  value,
  isWrong,
  said,
  onPut,
}: {
  readonly column: ShopColumn;
  readonly label: string;
  readonly value: string;
  readonly isWrong: boolean;
  readonly said: string;
  readonly onPut: (cell: string) => void;
}) => {
  const common = {
    'aria-label': label,
    'aria-describedby': said,
    'aria-invalid': isWrong ? ('true' as const) : undefined,
    value,
  };
  if (choices === undefined)
    return <input {...common} autoComplete="off" onInput={(e) => onPut(e.currentTarget.value)} />;
  return (
    <select {...common} onChange={(e) => onPut(e.currentTarget.value)}>
      {(!isRequired || value === '') && <option value="">{isRequired ? 'choose' : 'any'}</option>}
      {choices.map((choice) => (
        <option key={choice} value={choice}>
          {choice === 'true' ? 'yes' : choice === 'false' ? 'no' : choice}
        </option>
      ))}
    </select>
  );
};
