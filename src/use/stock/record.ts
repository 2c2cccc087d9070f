import type { UsedStock } from '../../contract/stock.ts';
import * as fields from '../../forms/fields.ts';
import type { InputProblem } from '../../forms/problem.ts';
import { ANYTHING, list, optional, section } from '../../forms/sections.ts';
import type { Reader } from '../../forms/field.ts';
import { sha256 } from '../../text/sha256.ts';

/** One booking. */
export interface Taking {
  readonly layout: string;
  /** The shop file as it was before, to be put back; gone of bookings long ago. */
  readonly before?: string | undefined;
  /** Digests of the shop file before and after. */
  readonly beforeDigest: string;
  readonly afterDigest: string;
  readonly used: readonly UsedStock[];
  /** Names of the remnants that were added. */
  readonly added: readonly string[];
}

/** What was booked in a shop file, the last one last. */
export type StockRecord = readonly Taking[];

/** The record of a shop file: `shop.taken.json` beside `shop.yaml`. */
export const recordName = (shopFile: string): string =>
  `${shopFile.replace(/\.(?:ya?ml|json)$/i, '')}.taken.json`;

/** Bookings whose shop files are kept in full. */
const MOST_TEXTS = 20;

const ABOUT =
  'What was taken out of the stock of the shop file beside this, by which it can be taken back. Leave it to blankwright.';

export const writeRecord = (record: StockRecord): string => {
  const takings = record.map(({ before, ...rest }, i) =>
    i < record.length - MOST_TEXTS ? rest : { ...rest, before },
  );
  return `${JSON.stringify({ about: ABOUT, takings }, null, 1)}\n`;
};

const line = (about: string): Reader<string> => fields.text({ about, max: 200 });

/** The text of a whole file, lines and all. */
const wholeText: Reader<string> = {
  json: () => ({ type: 'string' }),
  read: (given) =>
    typeof given === 'string'
      ? { ok: true, value: given }
      : { ok: false, flaws: [{ path: [], allowed: 'the text of a shop file' }] },
};

const number = (about: string) => fields.count({ about, min: 0, max: 1e6 });

const flag: Reader<boolean> = {
  json: () => ({ type: 'boolean' }),
  read: (given) =>
    typeof given === 'boolean'
      ? { ok: true, value: given }
      : { ok: false, flaws: [{ path: [], allowed: 'true or false' }] },
};

const leftOrNull: Reader<number | null> = {
  json: () => ({}),
  read: (given) => (given === null ? { ok: true, value: null } : number('').read(given)),
};

const MANY = { min: 0, max: 1e6 };

const FILE = section('A record of what was taken.', {
  about: ANYTHING,
  takings: list(
    'Bookings.',
    section('A booking.', {
      layout: line('The layout.'),
      before: optional(wholeText),
      beforeDigest: line('Digest of the shop file before.'),
      afterDigest: line('Digest of the shop file after.'),
      used: list(
        'What was used.',
        section('Pieces of one name.', {
          stock: line('Its name.'),
          isRemnant: flag,
          count: number('How many.'),
          left: leftOrNull,
          bought: number('How many were bought.'),
        }),
        { what: 'pieces', ...MANY },
      ),
      added: list('Remnants that were added.', line('Its name.'), { what: 'names', ...MANY }),
    }),
    { what: 'bookings', ...MANY },
  ),
});

export type ReadRecord =
  | { readonly ok: true; readonly record: StockRecord }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

/** Reads the text of a record; there is nothing in one that is not there yet. */
export const readRecord = (text: string | undefined, name: string): ReadRecord => {
  if (text === undefined) return { ok: true, record: [] };
  const read = FILE.read(parsed(text));
  if (read.ok) return { ok: true, record: read.value.takings };
  const [flaw] = read.flaws;
  return {
    ok: false,
    problems: [
      {
        input: 'record',
        given: `${name}, which is not as it was written${flaw === undefined || flaw.path.length === 0 ? '' : `, at ${flaw.path.join('.')}`}`,
        allowed: 'the record as the last booking wrote it',
        mend: 'put it back as it was, or move it away: the stock file is right without it, but bookings made so far can then not be taken back, nor be known again',
      },
    ],
  };
};

const parsed = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
};

export const digestOf = (text: string): Promise<string> => sha256(new TextEncoder().encode(text));

/**
 * The record without a last booking that never came into the shop file, or was taken out of it
 * again: the record is written first, the shop file second, and taking back goes the other way
 * round, so whoever is killed between the two leaves a booking whose shop file is as before.
 */
export const settled = async (record: StockRecord, shopText: string): Promise<StockRecord> => {
  const last = record.at(-1);
  if (last === undefined || last.beforeDigest === last.afterDigest) return record;
  return last.beforeDigest === (await digestOf(shopText)) ? record.slice(0, -1) : record;
};
