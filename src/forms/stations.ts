import type { Vec2 } from '../geometry/vec2.ts';
import { parseLength } from '../text/units.ts';
import { TEXT } from './accepts.ts';
import {
  type Field,
  type FieldReading,
  makeField,
  makeOptionalField,
  type Said,
  saidOf,
} from './field.ts';
import { shown } from './given.ts';
import { entriesOf } from './split-entries.ts';

/** A cross-section that was measured at a station, its corners in the order they were given, mm. */
export interface GivenSection {
  readonly atMm: number;
  readonly corners: readonly Vec2[];
}

const MOST_SECTIONS = 12;
const MOST_CORNERS = 8;
const MOST_STATIONS = 20;
const FARTHEST_MM = 10_000;
const WAY =
  "the station, a colon and its corners as x,y with ';' between them, as 0: 0,0; 400,0; 400,220; 0,240; with | or a new line between sections";

/** A field for two or more measured cross-sections, each of 3 to 8 corners. */
export const measuredSections = (
  options: Said & { readonly example: string },
): Field<readonly GivenSection[]> =>
  makeField({ kind: 'text', allowed: `sections: ${WAY}`, ...options }, TEXT, readSections);

/** Reads `0: 0,0; 400,0; 400,220 | 600: ...`; the refusal names the section that is wrong. */
export function readSections(given: string): FieldReading<readonly GivenSection[]> {
  const texts = given
    .split(/[|\n]/)
    .map((text) => text.trim())
    .filter((text) => text !== '');
  if (texts.length > MOST_SECTIONS)
    return { ok: false, given: `${texts.length} sections`, mend: `give at most ${MOST_SECTIONS}` };
  if (texts.length < 2) return { ok: false, mend: 'give two sections at least' };
  const sections: GivenSection[] = [];
  for (const text of texts) {
    const read = readSection(text);
    if (typeof read === 'string') return { ok: false, given: shown(text), mend: read };
    sections.push(read);
  }
  return { ok: true, value: sections };
}

/** The section, or what is wrong with it. */
const readSection = (text: string): GivenSection | string => {
  const [station = '', list, ...more] = text.split(':');
  if (list === undefined || more.length > 0) return `write ${WAY}`;
  const at = parseLength(station);
  if (!at.ok) return `station: ${at.reason}`;
  const entries = entriesOf(list, MOST_CORNERS);
  if (entries.length < 3 || entries.length > MOST_CORNERS)
    return `give it 3 to ${MOST_CORNERS} corners with ';' between them`;
  const corners: Vec2[] = [];
  for (const entry of entries) {
    const parts = entry.split(',').map((part) => parseLength(part));
    const [x, y] = parts;
    if (parts.length !== 2 || x?.ok !== true || y?.ok !== true)
      return `write each corner as x,y, and ${shown(entry.trim())} is none`;
    corners.push([x.value, y.value]);
  }
  return [at.value, ...corners.flat()].some((mm) => Math.abs(mm) > FARTHEST_MM)
    ? `stations, x and y must lie between -${FARTHEST_MM} and ${FARTHEST_MM} mm`
    : { atMm: at.value, corners };
};

/** A field for places along one line, such as `200; 400`; it may be left out. */
export const optionalStations = (
  options: Said & { readonly example: string; readonly otherwise: string },
): Field<readonly number[] | undefined> =>
  makeOptionalField(
    {
      kind: 'text',
      list: { one: 'station', many: 'stations' },
      ...saidOf(options),
      allowed: "stations with ';' between them",
      example: options.example,
      otherwise: options.otherwise,
    },
    TEXT,
    readStations,
  );

/** Reads `200; 400`, in the order of the places. */
export function readStations(given: string): FieldReading<readonly number[]> {
  const texts = entriesOf(given, MOST_STATIONS);
  if (texts.length === 0) return { ok: false, mend: 'give one station at least' };
  if (texts.length > MOST_STATIONS)
    return { ok: false, given: `${texts.length} stations`, mend: `give at most ${MOST_STATIONS}` };
  const read = texts.map((text) => parseLength(text));
  const wrong = read.findIndex((one) => !one.ok || Math.abs(one.value) > FARTHEST_MM);
  if (wrong >= 0)
    return {
      ok: false,
      given: shown((texts[wrong] as string).trim()),
      mend: `write lengths within ${FARTHEST_MM} mm`,
    };
  return {
    ok: true,
    value: read.flatMap((one) => (one.ok ? [one.value] : [])).toSorted((a, b) => a - b),
  };
}
