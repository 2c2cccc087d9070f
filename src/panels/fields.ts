import type * as z from 'zod';
import { formOf, WORDS_INPUT } from '../forms/accepts.ts';
import {
  type Field,
  fieldOf,
  type Flaw,
  makeOptionalField,
  optionalField,
  type Read,
  type Said,
  saidOf,
} from '../forms/field.ts';
import { shown } from '../forms/given.ts';
import { nearest } from '../text/nearest.ts';
import {
  BASE,
  BASE_MAP,
  CORNER_MAP,
  CORNERS,
  FLANGE_MAP,
  FLANGES,
  type GivenBaseMap,
  type GivenCornerMap,
  type GivenFlangeMap,
} from './given.ts';
import { intoBase, intoCorners, intoFlanges } from './with-measurements.ts';
import { baseMap, cornerMaps, FLANGE_ALLOWED, flangeMaps, type Line } from './lines.ts';

/**
 * The fields of a family whose part is described panel by panel. They read maps and short lines
 * alike; their figures are worked out when all of them are known, since they may name each other.
 */

export const BASE_ALLOWED =
  "a rectangle as width x depth (120 x 80), points in order round an outline with ';' between them, disc 120, ring 200 120 0 90, polygon 6 80, or a map";

export const CORNER_ALLOWED =
  'two flanges with and between them, open, butt or lapped, through and the flange that runs on, gap and lap, such as front and right butt through front gap 1';

export const keysOf = (map: z.ZodObject): Readonly<Record<string, string>> =>
  Object.fromEntries(
    Object.entries(map.shape as Readonly<Record<string, z.ZodType>>).map(([key, form]) => [
      key,
      form.description ?? '',
    ]),
  );

/** A field for a base; `otherwise` says what its part is made of where it is left out. */
export const panelBase = ({
  otherwise,
  ...said
}: Said & { readonly otherwise: string }): Field<GivenBaseMap | undefined> =>
  optionalField(
    fieldOf(
      {
        kind: 'text',
        ...saidOf(said),
        allowed: BASE_ALLOWED,
        example: '120 x 80',
        withMeasurements: intoBase,
        keys: keysOf(BASE_MAP),
      },
      () => formOf(BASE),
      (given) => readWith(BASE, given, 'base', BASE_MAP, baseMap, BASE_ALLOWED),
    ),
    otherwise,
  );

/** A field for flanges; none unless given. */
export const panelFlanges = (said: Said): Field<readonly GivenFlangeMap[]> =>
  fieldOf(
    {
      kind: 'text',
      list: { one: 'flange', many: 'flanges' },
      each: 'flange',
      ...saidOf(said),
      allowed: FLANGE_ALLOWED,
      default: '',
      example: 'lip on top 20 90 up from 10 to 110',
      withMeasurements: intoFlanges,
      keys: keysOf(FLANGE_MAP),
    },
    () => formOf(FLANGES),
    (given = '') => readWith(FLANGES, given, 'flange', FLANGE_MAP, flangeMaps, FLANGE_ALLOWED),
  );

/** A field for corners; all open unless given. */
export const panelCorners = (said: Said): Field<readonly GivenCornerMap[]> =>
  fieldOf(
    {
      kind: 'text',
      list: { one: 'corner', many: 'corners' },
      ...saidOf(said),
      allowed: CORNER_ALLOWED,
      default: '',
      example: 'front and right butt through front gap 1',
      withMeasurements: intoCorners,
      keys: keysOf(CORNER_MAP),
    },
    () => formOf(CORNERS),
    (given = '') => readWith(CORNERS, given, 'corner', CORNER_MAP, cornerMaps, CORNER_ALLOWED),
  );

/** A field for the order of the panels; as they are written unless given. */
export const panelOrder = (said: Said): Field<readonly string[] | undefined> =>
  makeOptionalField(
    {
      kind: 'text',
      ...saidOf(said),
      allowed: "the names of all panels with ';' between them, or a list of them",
      example: 'lip; base; ear',
      otherwise: 'the base first, then the flanges as they are written',
    },
    WORDS_INPUT,
    (given) => ({
      ok: true,
      value: (typeof given === 'string' ? given.split(';') : given).map((name) => name.trim()),
    }),
  );

export const readWith = <In, Out>(
  accepts: z.ZodType<In>,
  given: unknown,
  what: string,
  map: z.ZodObject,
  read: (given: In) => Line<Out>,
  allowed: string,
): Read<Out> => {
  const wrong = (flaw: Partial<Flaw>): Read<Out> => ({
    ok: false,
    flaws: [{ path: [], allowed, ...flaw }],
  });
  const taken = accepts.safeParse(given);
  if (!taken.success) return wrong(given === undefined ? {} : flawIn(given, what, map));
  const lines = read(taken.data);
  return lines.ok
    ? { ok: true, value: lines.value }
    : wrong({ given: `${lines.given} as ${what} ${lines.number}`, mend: lines.mend });
};

/** What is wrong with a map, by its keys: one that is not known, or one with a value of another kind. */
export const flawIn = (given: unknown, what: string, map: z.ZodObject): Partial<Flaw> => {
  const entries: readonly unknown[] = Array.isArray(given) ? given : [given];
  for (const [i, entry] of entries.entries()) {
    if (typeof entry === 'string' || map.safeParse(entry).success) continue;
    const called = Array.isArray(given) ? `${what} ${i + 1}` : what;
    if (typeof entry !== 'object' || entry === null)
      return { given: `${shown(entry)} as ${called}` };
    return flawInMap(entry, called, map);
  }
  return {};
};

const flawInMap = (entry: object, called: string, map: z.ZodObject): Partial<Flaw> => {
  const keys = Object.keys(map.shape);
  const stranger = Object.keys(entry).find((key) => !keys.includes(key));
  if (stranger !== undefined) {
    const meant = nearest(stranger, keys);
    return {
      given: `${shown(stranger)} in ${called}`,
      allowed: `the keys ${keys.join(', ')}`,
      ...(meant !== undefined && { mend: `did you mean ${meant}?` }),
    };
  }
  const values = entry as Readonly<Record<string, unknown>>;
  for (const [key, form] of Object.entries(map.shape) as [string, z.ZodType][]) {
    if (form.safeParse(values[key]).success) continue;
    return values[key] === undefined
      ? { given: `no ${key} in ${called}`, mend: `give ${key}: ${form.description ?? ''}` }
      : {
          given: `${shown(values[key])} as ${key} of ${called}`,
          allowed: form.description ?? 'another value',
        };
  }
  return {};
};
