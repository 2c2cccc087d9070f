import { shown } from '../forms/given.ts';
import type { GivenFitsMap, GivenTabMap } from './given-pieces.ts';
import { type Line, mapsOf } from './lines.ts';

/** The short lines of fits and tabs, taken apart into the maps that a file has. */

export const RELATIONS = ['over', 'into', 'closes', 'covers'] as const;

export type Relation = (typeof RELATIONS)[number];

export const FITS_ALLOWED =
  'over, into and a piece, or closes, covers and an edge of one, then gap and a figure: over box gap 1, closes box left gap 0.5 inset 5';

export const TAB_ALLOWED =
  'an edge, into, and a panel, then in any order count, width, clearance, from and pitch with a figure each: rib end into base count 2 width 15';

/** A fits as a map, whichever way it was written. */
export const fitsMap = (given: string | GivenFitsMap): Line<GivenFitsMap> => {
  const value = typeof given === 'string' ? fitsOf(given.trim()) : given;
  const isOne =
    typeof value !== 'string' && RELATIONS.filter((key) => value[key] !== undefined).length === 1;
  return isOne
    ? { ok: true, value }
    : {
        ok: false,
        number: 1,
        given: shown(given),
        mend: typeof value === 'string' ? value : 'give one of over, into, closes and covers',
      };
};

/** Tabs as maps. */
export const tabMaps = (
  given: string | readonly (string | GivenTabMap)[],
): Line<readonly GivenTabMap[]> => mapsOf(given, tabOf);

const FITS_KEYS = ['gap', 'inset'] as const;
const TAB_KEYS = ['count', 'width', 'clearance', 'from', 'pitch'] as const;

function fitsOf(line: string): GivenFitsMap | string {
  const [, relation = '', rest = ''] = /^(over|into|closes|covers)\s+(.+)$/i.exec(line) ?? [];
  if (relation === '') return 'write over, into, closes or covers, and what: over box gap 1';
  const { head, found } = apart(rest, FITS_KEYS);
  return typeof found === 'string' ? found : { [relation.toLowerCase()]: head, ...found };
}

function tabOf(line: string): GivenTabMap | string {
  const [, on = '', rest = ''] = /^(?:on\s+)?(.+?)\s+into\s+(.+)$/i.exec(line) ?? [];
  if (on === '') return 'write the edge with the teeth, into, and the panel with the slots';
  const { head, found } = apart(rest, TAB_KEYS);
  if (typeof found === 'string') return found;
  return head === '' ? 'write a panel behind into' : { on, into: head, ...found };
}

/** What stands before the first of the keys, and the figure behind each. */
const apart = (
  text: string,
  keys: readonly string[],
): { readonly head: string; readonly found: Readonly<Record<string, string>> | string } => {
  const words = text.split(/\s+/);
  const first = words.findIndex((word) => keys.includes(word.toLowerCase()));
  const end = first < 0 ? words.length : first;
  const found: Record<string, string> = {};
  const head = words.slice(0, end).join(' ');
  for (let i = end; i < words.length; i += 2) {
    const key = words[i]?.toLowerCase() ?? '';
    const figure = words[i + 1];
    if (!keys.includes(key))
      return {
        head,
        found: `${shown(words[i])} has no meaning there: ${keys.join(', ')} may stand there, each with its figure and no spaces in it`,
      };
    if (figure === undefined) return { head, found: `write a figure behind ${key}` };
    if (Object.hasOwn(found, key)) return { head, found: `write ${key} once` };
    found[key] = figure;
  }
  return { head, found };
};
