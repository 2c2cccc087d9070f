import { DEFAULT_SHOP_SOURCES } from '../../data/shop-default.ts';
import type { Shop } from '../../model/shop.ts';
import { readShop } from '../../shop/read.ts';
import { shopSchema } from '../../shop/schema.ts';
import { shopEntries } from '../../shop/write.ts';
import { type EntryPath, jobValue, withEntry, withValue } from '../model/job-text.ts';
import { wordsOf } from '../model/words-of.ts';
import { atNoLine } from './job-answers.ts';
import { problemWords } from './problem-words.ts';
import type { ShopChange, ShopChanged, ShopColumn, ShopTable } from './shop-questions.ts';

/** What a JSON schema tells of a thing in the shop file. */
interface Told {
  readonly description?: string;
  readonly type?: string | readonly string[];
  readonly anyOf?: readonly Told[];
  readonly enum?: readonly unknown[];
  readonly properties?: Readonly<Record<string, Told>>;
  readonly required?: readonly string[];
  readonly items?: Told;
}

const partsOf = ({ properties = {} }: Told): (readonly [string, Told])[] =>
  Object.entries(properties);

/** Columns of a row: what is one figure or word, also in sections of the row; lists are tables of their own. */
const columnsOf = (row: Told, above = '', isRequired = true): ShopColumn[] =>
  partsOf(row).flatMap(([key, part]): ShopColumn[] => {
    const name = above + key;
    const isNeeded = isRequired && row.required?.includes(key) === true;
    if (part.properties !== undefined) return columnsOf(part, `${name}.`, isNeeded);
    if (part.type === 'array' || part.type === 'object') return [];
    const choices = isFlag(part) ? ['true', 'false'] : part.enum?.map(String);
    return [{ name, about: part.description ?? '', choices, isRequired: isNeeded }];
  });

/** Yes or no, which a file may say in other words too. */
const isFlag = ({ type, anyOf = [] }: Told): boolean =>
  [type].flat().includes('boolean') || anyOf.some((one) => isFlag(one));

const at = (value: unknown, path: EntryPath): unknown =>
  path.reduce<unknown>(
    (inner, step) =>
      typeof inner === 'object' && inner !== null
        ? (inner as Record<string | number, unknown>)[step]
        : undefined,
    value,
  );

const cellOf = (value: unknown): string =>
  typeof value === 'number' || typeof value === 'string' || typeof value === 'boolean'
    ? String(value)
    : '';

/** A cell of a column of few words: yes and no are told as the page has them. */
const cellIn = (value: unknown, choices: ShopColumn['choices']): string => {
  const cell = cellOf(value);
  if (choices === undefined || choices.includes(cell)) return cell;
  return { yes: 'true', on: 'true', no: 'false', off: 'false' }[cell.toLowerCase()] ?? cell;
};

const isGiven = (value: unknown): boolean => value !== undefined && value !== null;
const listIn = (value: unknown, path: EntryPath): readonly unknown[] => {
  const list = at(value, path);
  return Array.isArray(list) ? (list as unknown[]) : [];
};

/**
 * The cutters, the lists of each, and the sheets, as rows: what the file says, and where it says nothing,
 * what is assumed. Columns are those of the schema.
 */
export const shopTables = (file: unknown, assumed: unknown): ShopTable[] => {
  const { cutters, sheets } = (shopSchema.json() as Told).properties ?? {};
  const tableAt = (path: EntryPath, told: Told | undefined, title: string): ShopTable => {
    const isOwn = isGiven(at(file, path));
    const columns = columnsOf(told?.items ?? {});
    return {
      path,
      title,
      about: told?.description ?? '',
      columns,
      rows: listIn(isOwn ? file : assumed, path).map((row) =>
        columns.map(({ name, choices }) => cellIn(at(row, name.split('.')), choices)),
      ),
      isOwn,
    };
  };
  const own = isGiven(at(file, ['cutters'])) ? file : assumed;
  const lists = partsOf(cutters?.items ?? {}).filter(([, part]) => part.type === 'array');
  return [
    tableAt(['cutters'], cutters, 'cutters'),
    ...listIn(own, ['cutters']).flatMap((one, i) =>
      lists.map(([key, part]) =>
        tableAt(['cutters', i, key], part, `${cellOf(at(one, ['name']))}: ${wordsOf(key)}`),
      ),
    ),
    tableAt(['sheets'], sheets, 'sheets'),
  ];
};

/** A shop file that has nothing in it yet but its name. */
const FIRST = 'name: my shop\n';

/** The file with a list in it that it has left out so far: as it is assumed, so that nothing else changes. */
const withList = (text: string, shop: Shop, path: EntryPath): string => {
  const { entries } = shopEntries(shop, DEFAULT_SHOP_SOURCES);
  return path.reduce<string>((next, _, i) => {
    const head = path.slice(0, i + 1);
    return isGiven(at(jobValue(next), head))
      ? next
      : withValue(next, head, at(entries, head) ?? []);
  }, text);
};

type Rows = 'row' | 'row out';
type Change<K extends Rows> = Omit<ShopChange & { readonly kind: K }, 'kind'>;

/** A row as it is typed; it is written when it can be read, and else it is told why it cannot. */
export const withRow = (
  text: string | null,
  shop: Shop,
  { path, row, cells }: Change<'row'>,
): ShopChanged => {
  const listed = withList(text ?? FIRST, shop, path);
  const isNew = row >= listIn(jobValue(listed), path).length;
  const begun = isNew ? withValue(listed, [...path, row], {}) : listed;
  const next = Object.entries(cells).reduce((now, [name, cell]) => {
    const place = [...path, row, ...name.split('.')];
    const typed = cell.trim();
    // What is left out, and was, needs no section to be left out of.
    if (typed === '' && !isGiven(at(jobValue(now), place))) return now;
    const isYesOrNo = typed === 'true' || typed === 'false';
    return withEntry(now, place, typed === '' ? undefined : isYesOrNo ? typed === 'true' : typed);
  }, begun);
  return judged(next, path, row);
};

export const withoutRow = (
  text: string | null,
  shop: Shop,
  { path, row }: Change<'row out'>,
): ShopChanged =>
  judged(withEntry(withList(text ?? FIRST, shop, path), [...path, row], undefined), path);

/** `cutters[0].kerf`, as problems name it. */
const nameOf = (path: EntryPath): string =>
  path
    .map((step, i) => (typeof step === 'number' ? `[${step}]` : i === 0 ? step : `.${step}`))
    .join('');

/** What is wrong in the list is told; what was wrong elsewhere in the file before is told there. */
const judged = (text: string, path: EntryPath, row?: number): ShopChanged => {
  const read = readShop(text);
  if (read.ok) return { ok: true, text };
  const list = nameOf(path);
  const own = row === undefined ? list : nameOf([...path, row]);
  const wrong = read.problems.filter(({ input }) => input.startsWith(list));
  if (wrong.length === 0) return { ok: true, text };
  const why = wrong.map((problem) =>
    problemWords(atNoLine({ ...problem, input: within(problem.input, own) })),
  );
  return { ok: false, why: why.join('. ') };
};

/** What of a name is behind that of its row. */
const within = (input: string, row: string): string =>
  wordsOf(input.startsWith(`${row}.`) ? input.slice(row.length + 1) : input);
