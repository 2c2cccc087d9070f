import type { Vec2 } from '../geometry/vec2.ts';
import { parseLength } from '../text/units.ts';
import { ONE_NAME } from './distances.ts';
import { TEXT } from './accepts.ts';
import { type Field, type FieldReading, makeOptionalField, type Said, saidOf } from './field.ts';
import { shown } from './given.ts';
import { entriesOf } from './split-entries.ts';

/** A place on a part: by coordinates, mm, or by the name of a point given elsewhere. */
export type Place = { readonly at: Vec2 } | { readonly name: string };

/**
 * A straight side of an outline: the one that faces a direction most squarely, or the one between
 * two named points.
 */
export type SideChoice =
  { readonly facing: Vec2 } | { readonly between: readonly [string, string] };

const FARTHEST_MM = 10_000;

const PLACE_ALLOWED = 'x,y or the name of a point';
const TWO_PLACES_ALLOWED = 'two places with a space between them, each x,y or the name of a point';
const SIDE_ALLOWED =
  'left, right, top or bottom, or the names of the two points the side runs between, such as A-B';

type Options = Said & { readonly example: string; readonly otherwise: string };

/** A field for one place; it may be left out. */
export const optionalPlace = (options: Options): Field<Place | undefined> =>
  makeOptionalField({ kind: 'text', allowed: PLACE_ALLOWED, ...options }, TEXT, readPlace);

/** A field for a line by two places; it may be left out. */
export const optionalLine = (options: Options): Field<readonly [Place, Place] | undefined> =>
  makeOptionalField({ kind: 'text', allowed: TWO_PLACES_ALLOWED, ...options }, TEXT, readLine);

const MOST_LINES = 12;
const LINES_ALLOWED = `lines, each by two places with a space between them, x,y or the name of a point; with ';' between the lines`;

/** A field for several lines, each by two places; it may be left out. */
export const optionalLines = (
  options: Options,
): Field<readonly (readonly [Place, Place])[] | undefined> =>
  makeOptionalField(
    {
      kind: 'text',
      list: { one: 'line', many: 'lines' },
      ...saidOf(options),
      allowed: LINES_ALLOWED,
      example: options.example,
      otherwise: options.otherwise,
    },
    TEXT,
    readLines,
  );

/** A field for a side; it may be left out. */
export const optionalSide = (options: Options): Field<SideChoice | undefined> =>
  makeOptionalField({ kind: 'text', allowed: SIDE_ALLOWED, ...options }, TEXT, readSide);

export function readPlace(given: string): FieldReading<Place> {
  const read = placeIn(given.trim());
  return typeof read === 'string' ? { ok: false, mend: read } : { ok: true, value: read };
}

export function readLines(given: string): FieldReading<readonly (readonly [Place, Place])[]> {
  const texts = entriesOf(given, MOST_LINES);
  if (texts.length === 0) return { ok: false, mend: 'give one line at least' };
  if (texts.length > MOST_LINES)
    return { ok: false, given: `${texts.length} lines`, mend: `give at most ${MOST_LINES}` };
  const lines: (readonly [Place, Place])[] = [];
  for (const text of texts) {
    const read = readLine(text);
    if (!read.ok) return { given: shown(text.trim()), ...read };
    lines.push(read.value);
  }
  return { ok: true, value: lines };
}

export function readLine(given: string): FieldReading<readonly [Place, Place]> {
  const words = given
    .trim()
    .replace(/\s*,\s*/g, ',')
    .split(/\s+/);
  const [first, second] = words;
  if (first === undefined || second === undefined || words.length > 2)
    return { ok: false, mend: 'write two places, such as 0,40 120,55 or A B' };
  const [from, to] = [placeIn(first), placeIn(second)];
  if (typeof from !== 'string' && typeof to !== 'string') return { ok: true, value: [from, to] };
  const which = typeof from === 'string' ? first : second;
  return {
    ok: false,
    given: shown(which),
    mend: [from, to].filter((p) => typeof p === 'string').join('; '),
  };
}

const FACING: ReadonlyMap<string, Vec2> = new Map<string, Vec2>([
  ['left', [-1, 0]],
  ['right', [1, 0]],
  ['top', [0, 1]],
  ['bottom', [0, -1]],
]);

export function readSide(given: string): FieldReading<SideChoice> {
  const facing = FACING.get(given.trim().toLowerCase());
  if (facing !== undefined) return { ok: true, value: { facing } };
  const names = given.split('-').map((name) => name.trim());
  const [from, to] = names;
  if (
    from === undefined ||
    to === undefined ||
    names.length > 2 ||
    !names.every((name) => ONE_NAME.test(name))
  ) {
    return {
      ok: false,
      mend: 'write one of the four words, or two names with a hyphen between them',
    };
  }
  return from === to
    ? { ok: false, mend: 'name two different points' }
    : { ok: true, value: { between: [from, to] } };
}

/** The place, or what is wrong with it. */
function placeIn(text: string): Place | string {
  if (!text.includes(','))
    return ONE_NAME.test(text) ? { name: text } : 'write x,y, or the name of a point';
  const [x = '', y = '', ...more] = text.split(',');
  if (more.length > 0)
    return 'write two figures with one comma between them, and a point as decimal mark';
  const [xMm, yMm] = [parseLength(x), parseLength(y)];
  if (!xMm.ok || !yMm.ok)
    return [xMm.ok ? [] : [`x: ${xMm.reason}`], yMm.ok ? [] : [`y: ${yMm.reason}`]]
      .flat()
      .join('; ');
  if (Math.max(Math.abs(xMm.value), Math.abs(yMm.value)) > FARTHEST_MM)
    return `x and y must lie between -${FARTHEST_MM} and ${FARTHEST_MM} mm`;
  return { at: [xMm.value, yMm.value] };
}
