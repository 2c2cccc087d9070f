import { parseAngle, parseLength, parseNumber, type ParsedNumber } from '../text/units.ts';
import { SCALAR, TEXT } from './accepts.ts';
import {
  type Field,
  type FieldReading,
  makeField,
  makeOptionalField,
  type Said,
  saidOf,
} from './field.ts';
import { shown } from './given.ts';
import { type Place, readPlace } from './places.ts';
import { entriesOf } from './split-entries.ts';

/** A height at a place of a plan, mm. */
export interface GivenHeight {
  readonly place: Place;
  readonly mm: number;
}

/** The heights of a face: one for all of it, which is level, or several at places. */
export interface GivenHeights {
  readonly levelMm?: number;
  readonly at: readonly GivenHeight[];
}

const MOST_ENTRIES = 30;
const FARTHEST_MM = 10_000;

const HEIGHTS_ALLOWED =
  "one height for a level face, or heights at three places or more as A: 12, 3: 8.5 or 120,40: 9 with ';' between them: a named point, a point of the outline by its number, or x,y";

type Options = Said & { readonly example: string };

/** A field for heights at places of a plan. */
export const heights = (options: Options): Field<GivenHeights> =>
  makeField(
    {
      kind: 'text',
      list: { one: 'height', many: 'heights', under: 'at' },
      ...saidOf(options),
      allowed: HEIGHTS_ALLOWED,
      example: options.example,
    },
    SCALAR,
    (given) => readHeights(String(given)),
  );

/** Reads `0`, or `A: 0; B: 12; 300,0: 8`. A place is given once. */
export function readHeights(given: string): FieldReading<GivenHeights> {
  if (!given.includes(':') && !given.includes(';')) {
    const level = parseLength(given);
    if (!level.ok) return { ok: false, mend: level.reason };
    return isNear(level.value) ? { ok: true, value: { levelMm: level.value, at: [] } } : FAR;
  }
  const read = entriesIn(given, 'height', parseLength);
  if (!read.ok) return read;
  const at: GivenHeight[] = [];
  for (const { key, value } of read.value) {
    const place = readPlace(key);
    if (!place.ok)
      return {
        ok: false,
        given: shown(key),
        ...(place.mend !== undefined && { mend: place.mend }),
      };
    if (!isNear(value)) return { ...FAR, given: shown(`${key}: ${value}`) };
    at.push({ place: place.value, mm: value });
  }
  return { ok: true, value: { at } };
}

const isNear = (mm: number): boolean => Math.abs(mm) <= FARTHEST_MM;
const FAR = {
  ok: false,
  mend: `a height must lie between -${FARTHEST_MM} and ${FARTHEST_MM} mm`,
} as const;

/** An angle of a side that goes by its number, degrees. */
export interface SideAngle {
  readonly side: number;
  readonly deg: number;
}

/** A field for angles of numbered sides, such as `2: 5; 4: -3`; it may be left out. */
export const optionalSideAngles = ({
  mostDeg,
  ...options
}: Options & { readonly otherwise: string; readonly mostDeg: number }): Field<
  readonly SideAngle[] | undefined
> =>
  makeOptionalField(
    {
      kind: 'text',
      list: { one: 'side', many: 'sides' },
      allowed: `the number of a side and its angle, from -${mostDeg} to ${mostDeg}, as 2: 5 with ';' between them`,
      ...options,
    },
    TEXT,
    (given) => readSideAngles(given, mostDeg),
  );

/** Reads `2: 5; 4: -3`, sides counted from 1. */
export function readSideAngles(given: string, mostDeg: number): FieldReading<readonly SideAngle[]> {
  const read = entriesIn(given, 'angle', parseAngle);
  if (!read.ok) return read;
  for (const { key, value } of read.value) {
    if (!/^[1-9]\d?$/.test(key))
      return { ok: false, given: shown(key), mend: 'name a side by its number, counted from 1' };
    if (Math.abs(value) > mostDeg)
      return {
        ok: false,
        given: shown(`${key}: ${value}`),
        mend: `give at most ${mostDeg} degrees`,
      };
  }
  return {
    ok: true,
    value: read.value.map(({ key, value }) => ({ side: Number(key), deg: value })),
  };
}

/** What a vessel holds up to a height, litres. */
export interface HeldAt {
  readonly heightMm: number;
  readonly litres: number;
}

/** A field for what another vessel holds at heights, such as `0: 0; 100: 18.5`; it may be left out. */
export const optionalDipTable = (
  options: Options & { readonly otherwise: string },
): Field<readonly HeldAt[] | undefined> =>
  makeOptionalField(
    {
      kind: 'text',
      list: { one: 'row', many: 'rows' },
      allowed:
        "rows of a dip table from the empty vessel to the full one, height: litres with ';' between them, both rising",
      ...options,
    },
    TEXT,
    readDipTable,
  );

/** Reads `0: 0; 100: 18.5; 280: 60`, from an empty vessel upwards. */
export function readDipTable(given: string): FieldReading<readonly HeldAt[]> {
  const read = entriesIn(given, 'volume', parseNumber);
  if (!read.ok) return read;
  const rows: HeldAt[] = [];
  for (const { key, value } of read.value) {
    const height = parseLength(key);
    if (!height.ok) return { ok: false, given: shown(key), mend: height.reason };
    const before = rows.at(-1);
    const isRising =
      before === undefined ? value === 0 : height.value > before.heightMm && value > before.litres;
    if (!isRising)
      return {
        ok: false,
        given: shown(`${key}: ${value}`),
        mend:
          before === undefined
            ? 'begin with the height at which it is empty, 0 litres'
            : 'give heights and litres that rise from row to row',
      };
    rows.push({ heightMm: height.value, litres: value });
  }
  return rows.length < 2
    ? { ok: false, mend: 'give two rows at least, empty and full' }
    : { ok: true, value: rows };
}

interface Entry {
  readonly key: string;
  readonly value: number;
}

/** Entries of what is named, a colon and its figure, each name once. */
function entriesIn(
  given: string,
  what: string,
  parse: (text: string) => ParsedNumber,
): FieldReading<readonly Entry[]> {
  const texts = entriesOf(given, MOST_ENTRIES).map((text) => text.trim());
  if (texts.length === 0) return { ok: false, mend: `give one ${what} at least` };
  if (texts.length > MOST_ENTRIES)
    return { ok: false, given: `${texts.length} entries`, mend: `give at most ${MOST_ENTRIES}` };
  const entries: Entry[] = [];
  for (const text of texts) {
    const colon = text.indexOf(':');
    const key = text
      .slice(0, Math.max(0, colon))
      .trim()
      .replace(/\s*,\s*/g, ',');
    if (key === '')
      return { ok: false, given: shown(text), mend: `write what it is of, ':' and the ${what}` };
    if (entries.some((entry) => entry.key === key))
      return { ok: false, given: shown(text), mend: `there is a ${what} of ${key} already` };
    const value = parse(text.slice(colon + 1));
    if (!value.ok) return { ok: false, given: shown(text), mend: value.reason };
    entries.push({ key, value: value.value });
  }
  return { ok: true, value: entries };
}
