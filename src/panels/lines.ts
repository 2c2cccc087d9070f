import { camelCase } from '../forms/input-name.ts';
import { shown } from '../forms/given.ts';
import { entriesOf } from '../forms/split-entries.ts';
import {
  FLANGE_MAP,
  type GivenBase,
  type GivenBaseMap,
  type GivenCornerMap,
  type GivenCorners,
  type GivenFlangeMap,
  type GivenFlanges,
} from './given.ts';

/**
 * The short lines in which a part is typed, taken apart into the maps that a file has: words only,
 * no figure is looked at yet.
 */

/** A map out of a line, or what would mend the line. */
export type Line<T> = { readonly ok: true; readonly value: T } | Wrong;

/** Which entry is wrong, from 1, as it was written, and the mend. */
interface Wrong {
  readonly ok: false;
  readonly number: number;
  readonly given: string;
  readonly mend: string;
}

export const MOST_FLANGES = 100;
/** Far more than anybody writes before being told that it is too many. */
const MOST_LINES = 5000;

export const FLANGE_ALLOWED =
  'a name, on, the panel and its edge, height, angle, and up or down, such as lip on base top 20 90 up; behind them from 10 to 110, width 40 left, radius 3, taper 10, endWidth 30, joggle 2, slots, holes and the holes to the end of the line';

/** Flanges as maps, whichever way each was written. */
export const flangeMaps = (given: GivenFlanges): Line<readonly GivenFlangeMap[]> =>
  mapsOf(given, flangeOf);

/** Corners as maps. */
export const cornerMaps = (given: GivenCorners): Line<readonly GivenCornerMap[]> =>
  mapsOf(given, cornerOf);

/** The base as a map. */
export const baseMap = (given: GivenBase): Line<GivenBaseMap> => {
  if (typeof given !== 'string') return { ok: true, value: given };
  const value = baseOf(given.trim());
  return typeof value === 'string'
    ? { ok: false, number: 1, given: shown(given), mend: value }
    : { ok: true, value };
};

export const mapsOf = <T>(
  given: string | readonly (string | T)[],
  read: (line: string) => T | string,
): Line<readonly T[]> => {
  const entries = typeof given === 'string' ? linesOf(given) : given;
  const maps: T[] = [];
  for (const [index, entry] of entries.entries()) {
    const value = typeof entry === 'string' ? read(entry.trim()) : entry;
    if (typeof value === 'string')
      return { ok: false, number: index + 1, given: shown(entry), mend: value };
    maps.push(value);
  }
  return { ok: true, value: maps };
};

/** A `;` stands between holes of one line too: a line with holes ends at a new line or at `|`. */
const linesOf = (given: string): readonly string[] =>
  given
    .split(/[|\n]/, MOST_LINES)
    .filter((line) => line.trim() !== '')
    .flatMap((line) => (HOLES.test(line) ? [line] : entriesOf(line, MOST_LINES)));

const HOLES = /\sholes\s/i;

/** What stands before `holes`, and the holes. */
const apartFromHoles = (line: string): readonly [line: string, holes: string | undefined] => {
  const at = HOLES.exec(line);
  return at === null
    ? [line, undefined]
    : [line.slice(0, at.index).trim(), line.slice(at.index + at[0].length).trim()];
};

function flangeOf(text: string): GivenFlangeMap | string {
  const [line, holes] = apartFromHoles(text);
  const [, name = '', rest = ''] = /^(.+?)\s+on\s+(.+)$/i.exec(line) ?? [];
  if (name === '')
    return 'write the name of the flange, on, and the edge it grows on, such as lip on base top 20 90 up';
  const words = rest.split(/\s+/);
  const turn = words.findIndex((word) => /^(?:up|down)$/i.test(word));
  const head = turn >= 0 ? words.slice(0, turn) : withFigures(words);
  const figures = figuresIn(head, turn >= 0);
  const on = head.slice(0, head.length - figures.length).join(' ');
  if (on === '') return 'write which edge it grows on behind on, such as base top';
  const more = optionsIn(words.slice(turn >= 0 ? turn + 1 : head.length));
  if (typeof more === 'string') return more;
  const [height, angle] = figures;
  return {
    name,
    on,
    ...(height !== undefined && { height }),
    ...(angle !== undefined && { angle }),
    ...(turn >= 0 && { direction: words[turn]?.toLowerCase() as 'up' | 'down' }),
    ...more,
    ...(holes !== undefined && { holes }),
  };
}

/**
 * The words up to the figures behind the edge: the first that look like figures, or where a panel
 * has a number in its name, as in `wall 2 end 12`, those behind the usual name of an edge.
 */
const withFigures = (line: readonly string[]): readonly string[] => {
  const key = line.findIndex((word, i) => i > 0 && hasFigure(word, line[i + 1]));
  const words = key < 0 ? line : line.slice(0, key);
  const edge = words.findIndex((word, i) => USUAL_EDGE.test(word) && (i > 0 || isFigure(words[1])));
  const first = words.findIndex((word, i) => i > Math.max(edge, 0) && isFigure(word));
  if (first < 0) return words;
  const isTwo = isFigure(words[first + 1]);
  return words.slice(0, first + (isTwo ? 2 : 1));
};

/** A key with its figure, at which a line ends that has no height. */
const hasFigure = (word: string, next: string | undefined): boolean =>
  word.toLowerCase() !== 'foot' && KEYS.has(keyOf(word)) && isFigure(next);

/** Edges by the names that all plain panels have. */
const USUAL_EDGE = /^(?:bottom|right|top|left|end)$/i;

/** A number or a sum. */
const isFigure = (word: string | undefined): boolean => /^[\d.(]|[.*/+]/.test(word ?? '');

/**
 * Height and angle at the end of what stands before up or down. Before these words both stand there,
 * whatever they look like; without them what looks like a figure is one.
 */
const figuresIn = (head: readonly string[], isTurned: boolean): readonly string[] => {
  if (isTurned && head.length >= 3) return head.slice(-2);
  const [angle, height] = [head.at(-1), head.at(-2)];
  if (head.length < 2 || !isFigure(angle)) return [];
  return head.length >= 3 && isFigure(height) ? head.slice(-2) : head.slice(-1);
};

const ALIGNS = ['left', 'middle', 'right'] as const;
const SWITCHES = new Set(['slots', 'hugs', 'midSurface']);
/** The keys of a flange that may stand behind its direction. */
const KEYS = new Set(
  Object.keys(FLANGE_MAP.shape).filter(
    (key) =>
      !['name', 'on', 'height', 'angle', 'direction', 'align', 'holes', 'cutouts'].includes(key) &&
      !['outline', 'slits'].includes(key),
  ),
);

const keyOf = (word: string): string => camelCase(word.replace(/^[A-Z]/, (c) => c.toLowerCase()));
const isAlign = (word: string): word is (typeof ALIGNS)[number] =>
  (ALIGNS as readonly string[]).includes(word.toLowerCase());
const isKey = (word: string): boolean =>
  KEYS.has(keyOf(word)) || isAlign(word) || /^r[\d.(]/i.test(word);

/** What stands behind the direction, in any order, each once. */
function optionsIn(words: readonly string[]): Partial<GivenFlangeMap> | string {
  const found: Record<string, string | boolean> = {};
  for (let i = 0; i < words.length; i++) {
    const word = words[i] as string;
    const short = /^r([\d.(].*)$/i.exec(word)?.[1];
    const key = short !== undefined ? 'radius' : isAlign(word) ? 'align' : keyOf(word);
    if (!isKey(word)) return `${shown(word)} has no meaning there: ${BEHIND}`;
    if (Object.hasOwn(found, key)) return `write ${key} once`;
    if (SWITCHES.has(key)) found[key] = true;
    else if (isAlign(word)) found[key] = word.toLowerCase();
    else if (short !== undefined) found[key] = short;
    else {
      const value = words[++i];
      if (value === undefined) return `write a figure behind ${key}`;
      found[key] = value;
    }
  }
  return found as Partial<GivenFlangeMap>;
}

const BEHIND = `behind up or down may stand ${[...KEYS].join(', ')}, each with its figure and no spaces in it, left, middle or right behind a width, and holes`;

function baseOf(text: string): GivenBaseMap | string {
  const [line, holes] = apartFromHoles(text);
  const shape = shapeOf(line);
  return typeof shape === 'string' ? shape : { ...shape, ...(holes !== undefined && { holes }) };
}

function shapeOf(line: string): GivenBaseMap | string {
  const [word = '', ...figures] = line.split(/\s+/);
  const kind = word.toLowerCase();
  const [one, two, three, four] = figures;
  if (kind === 'disc')
    return figures.length === 1 && one !== undefined
      ? { disc: one }
      : 'write disc and its diameter, such as disc 120';
  if (kind === 'polygon')
    return figures.length === 2 && one !== undefined && two !== undefined
      ? { polygon: { sides: one, across: two } }
      : 'write polygon, how many sides, and how far across, such as polygon 6 80';
  if (kind === 'ring')
    return four !== undefined && one !== undefined && two !== undefined && three !== undefined
      ? { ring: { outer: one, inner: two, from: three, to: four } }
      : 'write ring, outer and inner diameter, and the angles between which it lies, such as ring 200 120 0 90';
  return line.includes(';') || line.includes(',') ? { outline: line } : { size: line };
}

function cornerOf(line: string): GivenCornerMap | string {
  const [, pair = '', style = '', rest = ''] =
    /^(.+?)\s+(open|butt|lapped)(?:\s+(.*))?$/i.exec(line) ?? [];
  const [one, other, ...strangers] = pair.split(/\s+and\s+/i);
  if (one === undefined || other === undefined || one === '' || strangers.length > 0)
    return 'write two flanges with and between them, and open, butt or lapped, such as front and right butt through front gap 1';
  const found: Record<string, string> = {};
  // A name may be of several words, and ends where the next of these words stands.
  for (const part of rest.split(/\s+(?=(?:through|gap|lap)\s)/i)) {
    if (part.trim() === '') continue;
    const [, key = '', value = ''] = /^(through|gap|lap)\s+(.+)$/i.exec(part.trim()) ?? [];
    if (key === '')
      return `${shown(part)} has no meaning there: behind the style may stand through and a flange, gap and a figure, lap and a figure`;
    found[key.toLowerCase()] = value;
  }
  return {
    between: [one.trim(), other.trim()],
    style: style.toLowerCase() as GivenCornerMap['style'],
    ...found,
  };
}
