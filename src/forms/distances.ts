import type { Distance, Side, SideStatement } from '../survey/survey.ts';
import { parseLength } from '../text/units.ts';
import type { FieldReading } from './field.ts';
import { shown } from './given.ts';

/** Distances as a person gives them, and which side points lie on. */
export interface GivenDistances {
  readonly distances: readonly Distance[];
  readonly sides: readonly SideStatement[];
}

export const DISTANCES_ALLOWED =
  "distances as A-B: 312 with ',', ';' or a new line between them, and sides as A-B-C: left (C lies left of the way from A to B)";

/** The solution takes time with the cube of the points; a part has far fewer. */
export const MOST_POINTS = 30;
const MOST_DISTANCES = 400;
const FARTHEST_MM = 100_000;

/** A name is letters, digits, underscores and points; the hyphen joins two names. */
const NAME = String.raw`[\p{L}\p{N}_.]{1,24}`;
const SIDE = new RegExp(`^(${NAME})\\s*-\\s*(${NAME})\\s*-\\s*(${NAME})$`, 'u');
const PAIR = new RegExp(`^(${NAME})\\s*-\\s*(${NAME})$`, 'u');
export const ONE_NAME = new RegExp(`^${NAME}$`, 'u');

/** A name among coordinates: a figure alone is more likely half a point. */
export const isNameAmongFigures = (text: string): boolean =>
  ONE_NAME.test(text) && /\p{L}/u.test(text);

/**
 * Reads distances and sides out of one text. Lengths as `parseLength` takes them; a pair may be
 * given more than once. The refusal names the first entry that cannot be read.
 */
export function readDistances(given: string): FieldReading<GivenDistances> {
  const entries = given
    .split(/[,;\n]/)
    .map((e) => e.trim())
    .filter((e) => e !== '');
  if (entries.length > 2 * MOST_DISTANCES)
    return refusal(`${entries.length} entries`, `give at most ${MOST_DISTANCES} distances`);
  const distances: Distance[] = [];
  const sides: SideStatement[] = [];
  for (const entry of entries) {
    const read = readEntry(entry);
    if (typeof read === 'string') return refusal(shown(entry), read);
    if ('mm' in read) distances.push(read);
    else sides.push(read);
  }
  return checked({ distances, sides });
}

function checked(given: GivenDistances): FieldReading<GivenDistances> {
  const { distances, sides } = given;
  if (distances.length === 0)
    return refusal('no distance', 'write the distance between two points, such as A-B: 312');
  if (distances.length > MOST_DISTANCES)
    return refusal(`${distances.length} distances`, `give at most ${MOST_DISTANCES}`);
  const known = new Set(distances.flatMap((d) => [d.from, d.to]));
  if (known.size > MOST_POINTS)
    return refusal(`${known.size} points`, `give at most ${MOST_POINTS}`);
  for (const { from, to, point, side } of sides) {
    const stranger = [from, to, point].find((name) => !known.has(name));
    if (stranger !== undefined)
      return refusal(
        `'${from}-${to}-${point}: ${side}'`,
        `no distance names ${stranger}; points are ${[...known].join(', ')}`,
      );
  }
  return { ok: true, value: given };
}

const refusal = (given: string, mend: string): FieldReading<never> => ({
  ok: false,
  given,
  allowed: DISTANCES_ALLOWED,
  mend,
});

/** A distance, a side, or what is wrong with the entry. */
function readEntry(entry: string): Distance | SideStatement | string {
  const colon = entry.indexOf(':');
  if (colon < 0) {
    return /^\d+$/.test(entry)
      ? 'write a decimal with a point, such as 312.5'
      : "write the two points, ':' and the distance, such as A-B: 312";
  }
  const [points, value] = [entry.slice(0, colon).trim(), entry.slice(colon + 1).trim()];
  const side = SIDE.exec(points);
  if (side !== null) return readSide(side, value);
  const pair = PAIR.exec(points);
  if (pair === null)
    return "name two points with a hyphen between them, such as A-B; a name has up to 24 letters, digits, '_' or '.'";
  const [, from = '', to = ''] = pair;
  if (from === to)
    return `the distance of ${from} from itself is no measurement; name two different points`;
  const mm = parseLength(value);
  if (!mm.ok) return mm.reason;
  return mm.value > 0 && mm.value <= FARTHEST_MM
    ? { from, to, mm: mm.value }
    : `a distance must be more than 0 and at most ${FARTHEST_MM} mm`;
}

function readSide(
  [, from = '', to = '', point = '']: RegExpExecArray,
  value: string,
): SideStatement | string {
  const side = SIDES.find((s) => s === value.toLowerCase());
  if (side === undefined)
    return `write left or right: on which side of the way from ${from} to ${to} does ${point} lie`;
  if (new Set([from, to, point]).size < 3) return 'name three different points';
  return { from, to, point, side };
}

const SIDES: readonly Side[] = ['left', 'right'];
