import type { GivenBase, GivenCorners, GivenFlanges } from './given.ts';
import type { GivenFitsMap, GivenTabMap } from './given-pieces.ts';
import { baseMap, cornerMaps, flangeMaps, type Line } from './lines.ts';
import { fitsMap, tabMaps } from './piece-lines.ts';

/** Keys whose values are words: no measurement is looked for in them. */
const WORDS = new Set([
  'name',
  'on',
  'direction',
  'align',
  'rule',
  'foot',
  'hemShape',
  'fold',
  'between',
  'style',
  'through',
  'use',
  'edge',
  'over',
  'into',
  'closes',
  'covers',
  'order',
]);

type Put = (text: string) => string;

/** A map with the figures of measurements in place of their names, its words left alone. */
export const putIntoMaps = (value: unknown, put: Put): unknown => {
  if (typeof value === 'string') return put(value);
  if (Array.isArray(value)) return value.map((item) => putIntoMaps(item, put));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, item]) => [
      key,
      WORDS.has(key) ? item : putIntoMaps(item, put),
    ]),
  );
};

/** The same of short lines, each first taken apart; one that cannot be is left for its reader. */
const putIntoLines =
  <In>(read: (given: In) => Line<unknown>) =>
  (given: unknown, put: Put): unknown => {
    const isOne = typeof given === 'string';
    const entries: readonly unknown[] = isOne || !Array.isArray(given) ? [given] : given;
    const put1 = (entry: unknown): unknown => {
      if (typeof entry !== 'string') return putIntoMaps(entry, put);
      const line = read(entry as In);
      return line.ok ? putIntoMaps(line.value, put) : entry;
    };
    const done = entries.map(put1);
    return isOne || !Array.isArray(given) ? done[0] : done.flat();
  };

export const intoBase = putIntoLines<GivenBase>(baseMap);
export const intoFlanges = putIntoLines<GivenFlanges>(flangeMaps);
export const intoCorners = putIntoLines<GivenCorners>(cornerMaps);
export const intoTabs = putIntoLines<string | readonly (string | GivenTabMap)[]>(tabMaps);

const PIECE_LINES = {
  base: intoBase,
  flanges: intoFlanges,
  corners: intoCorners,
  fits: putIntoLines<string | GivenFitsMap>(fitsMap),
  tabs: intoTabs,
} as const;

/** The same of pieces, each a map whose values are such lines. */
export const intoPieces = (given: unknown, put: Put): unknown =>
  Array.isArray(given)
    ? given.map((piece) => intoPieces(piece, put))
    : typeof given !== 'object' || given === null
      ? given
      : Object.fromEntries(
          Object.entries(given).map(([key, value]) => [
            key,
            Object.hasOwn(PIECE_LINES, key)
              ? PIECE_LINES[key as keyof typeof PIECE_LINES](value, put)
              : key === 'quantity'
                ? putIntoMaps(value, put)
                : value,
          ]),
        );
