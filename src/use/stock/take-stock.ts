import type { TakenStock, UsedStock } from '../../contract/stock.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { LaidSheet } from '../../model/laid.ts';
import type { Shop } from '../../model/shop.ts';
import type { StockPiece } from '../../model/stock.ts';
import { readShop } from '../../shop/read.ts';
import type { PartOutlines } from '../../stock/left.ts';
import { type KeepOptions, remnantsOf } from '../../stock/remnants.ts';
import { shearedPieces } from '../../stock/sheared.ts';
import { type StockDrawings, stockOf } from '../../stock/stock-of.ts';
import type { Done, Refused, UseCase } from '../use-case.ts';
import { layoutId } from './layout-id.ts';
import {
  digestOf,
  readRecord,
  recordName,
  settled,
  type StockRecord,
  writeRecord,
} from './record.ts';
import { newRemnant, type NewRemnant } from './remnant-entry.ts';
import { shopAfter, type StockChange } from './shop-after.ts';
import { usedOf } from './used-stock.ts';

export interface TakeRequest {
  /** Name of the shop file in messages; its record is named after it. */
  readonly shopFile: string;
  readonly shopText: string;
  /** The DXF files that remnants of the shop name. */
  readonly drawings?: StockDrawings | undefined;
  /** Text of the record beside the shop file; `undefined` where there is none. */
  readonly recordText: string | undefined;
  readonly sheets: readonly LaidSheet[];
  readonly outlines: PartOutlines;
  readonly keep?: KeepOptions | undefined;
  /** The same parts are cut once more. */
  readonly again?: boolean | undefined;
}

/**
 * Books what a layout uses: counts of sheets go down, used remnants go, and what is left of them is
 * added under new names. The files are the record, then the shop file, to be written in this order.
 * It is refused, and nothing changes, where the layout was booked before, or the stock is not what
 * it was when the layout was made.
 */
export const takeStock = async (request: TakeRequest): Promise<UseCase<TakenStock>> => {
  const { shopFile, shopText, outlines } = request;
  const sheets = request.sheets.filter(({ parts }) => parts.length > 0);
  const [read, recorded] = [
    readShop(shopText),
    readRecord(request.recordText, recordName(shopFile)),
  ];
  if (!read.ok) return read;
  if (!recorded.ok) return recorded;
  const stock = stockOf(read.shop, request.drawings);
  if (!stock.ok) return stock;
  const record = await settled(recorded.record, shopText);
  const layout = await layoutId(sheets, outlines);
  if (request.again !== true && record.some((taking) => taking.layout === layout))
    return refusal(bookedBefore(layout, shopFile));
  const used = usedOf(sheets, stock.stock, shopFile);
  if (!used.ok) return used;
  const news = newRemnants(sheets, outlines, request.keep, namesIn(read.shop, record));
  const change = changeOf(stock.stock, used.used, news);
  const after = shopAfter(shopText, change);
  const wrong = notAsMeant(after, read.shop, change, shopFile);
  if (wrong.length > 0) return { ok: false, problems: wrong };
  const told = { layout, used: used.used, added: news.map((n) => n.told) };
  return bookedAs(told, record, { shopFile, before: shopText, after });
};

/** The result, with the record and the shop file in the order in which they are written. */
const bookedAs = async (
  told: Pick<TakenStock, 'layout' | 'used' | 'added'>,
  record: StockRecord,
  shop: { readonly shopFile: string; readonly before: string; readonly after: string },
): Promise<Done<TakenStock>> => {
  const { shopFile, before, after } = shop;
  const name = recordName(shopFile);
  const taking = {
    layout: told.layout,
    before,
    beforeDigest: await digestOf(before),
    afterDigest: await digestOf(after),
    used: told.used,
    added: told.added.map((remnant) => remnant.name),
  };
  return {
    ok: true,
    result: { ...told, shop: shopFile, record: name },
    findings: [],
    files: [
      { name, contents: writeRecord([...record, taking]), mark: '' },
      { name: shopFile, contents: after, mark: '' },
    ],
  };
};

const refusal = (problem: InputProblem): Refused => ({ ok: false, problems: [problem] });

const bookedBefore = (layout: string, shopFile: string): InputProblem => ({
  input: 'take',
  given: `layout ${layout}, which is booked in ${shopFile} already`,
  allowed: 'a layout that was not booked before',
  mend: 'leave --take out; add --again where the same parts are cut once more; --take-back undoes the last booking',
});

/** Names that are in use, or were chalked on something once. */
const namesIn = ({ sheets, remnants }: Shop, record: StockRecord): readonly string[] => [
  ...[...sheets, ...remnants].flatMap(({ name }) => name ?? []),
  ...record.flatMap(({ added }) => added),
];

/** What is kept, called R and the next number that was never chalked on anything. */
const newRemnants = (
  sheets: readonly LaidSheet[],
  outlines: PartOutlines,
  keep: KeepOptions | undefined,
  names: readonly string[],
): readonly NewRemnant[] => {
  const numbers = names.map((name) => Number(/^R(\d{1,9})$/i.exec(name)?.[1] ?? 0));
  const highest = Math.max(0, ...numbers);
  return sheets
    .flatMap((sheet) => shearedPieces(sheet, outlines))
    .flatMap((sheet) => remnantsOf(sheet, outlines, keep).map((piece) => ({ sheet, piece })))
    .map(({ sheet, piece }, i) => newRemnant(`R${highest + 1 + i}`, sheet, piece));
};

const changeOf = (
  stock: readonly StockPiece[],
  used: readonly UsedStock[],
  news: readonly NewRemnant[],
): StockChange => {
  const remnants = stock.filter(({ isRemnant }) => isRemnant);
  const sheets = stock.filter(({ isRemnant }) => !isRemnant);
  const counts = used.flatMap(({ stock: name, isRemnant, left }): [number, number][] =>
    isRemnant || left === null ? [] : [[sheets.findIndex((s) => s.name === name), left]],
  );
  return {
    counts: new Map(counts),
    gone: used.flatMap(({ stock: name, isRemnant }) =>
      isRemnant ? [remnants.findIndex((r) => r.name === name)] : [],
    ),
    added: news.map(({ entry }) => entry),
  };
};

/**
 * The new text is read back: its stock has to be what was meant. A file in which entries repeat
 * others by aliases can come out otherwise.
 */
const notAsMeant = (
  after: string,
  before: Shop,
  { counts, gone, added }: StockChange,
  shopFile: string,
): readonly InputProblem[] => {
  const read = readShop(after);
  if (!read.ok)
    return read.problems.map((p) => ({ ...p, given: `${p.given} in what ${shopFile} would be` }));
  const meant = {
    ...before,
    sheets: before.sheets.map((sheet, i) =>
      counts.has(i) ? { ...sheet, count: counts.get(i) } : sheet,
    ),
    remnants: [...before.remnants.filter((_, i) => !gone.includes(i)), ...added],
  };
  return isSame({ ...read.shop, builtIn: [] }, { ...meant, builtIn: [] })
    ? []
    : [
        {
          input: 'shop',
          given: `${shopFile}, in which entries repeat others (& and *)`,
          allowed: 'a shop file whose sheets and remnants each stand for themselves',
          mend: 'write the repeated entries out in full',
        },
      ];
};

const isSame = (a: unknown, b: unknown): boolean =>
  JSON.stringify(ordered(a)) === JSON.stringify(ordered(b));

const ordered = (value: unknown): unknown =>
  Array.isArray(value)
    ? value.map(ordered)
    : typeof value === 'object' && value !== null
      ? Object.fromEntries(
          Object.entries(value)
            .toSorted(([a], [b]) => (a < b ? -1 : 1))
            .map(([key, inner]) => [key, ordered(inner)]),
        )
      : value;
