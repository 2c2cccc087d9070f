import { distance, type Vec2 } from '../geometry/vec2.ts';
import type { Direction } from '../model/part.ts';
import { parseAngle, parseLength } from '../text/units.ts';
import { FOLD_LINES_INPUT, type Given } from './accepts.ts';
import { entriesOf } from './split-entries.ts';
import { type Field, type FieldReading, makeField, type Said, saidOf } from './field.ts';
import { isNameAmongFigures } from './distances.ts';
import { shown } from './given.ts';
import type { Place } from './places.ts';

/** A fold line by two points of it, mm. No radius means that of the whole part. */
export interface FoldLine extends FoldLineFacts {
  readonly from: Vec2;
  readonly to: Vec2;
}

/** One whose points may be known by the names of points given elsewhere. */
export interface GivenFoldLine extends FoldLineFacts {
  readonly from: Place;
  readonly to: Place;
}

interface FoldLineFacts {
  readonly angleDeg: number;
  readonly direction: Direction;
  readonly insideRadiusMm?: number;
  /** Whether it is cut as a row of slots, to be folded by hand and welded up. */
  readonly slots?: true;
  /**
   * A second fold the other way follows on the left of the line, seen from its first point to its
   * second, and sets the metal beyond off by this much.
   */
  readonly joggleMm?: number;
}

export type FoldLinesInput = Given<typeof FOLD_LINES_INPUT>;

export const FOLD_LINES_ALLOWED =
  "fold lines as x1,y1 x2,y2 angle up or down, or by the names of two points given elsewhere, with ';' between them; behind one, r3 gives it an inside radius of its own, " +
  'slots makes it a row of slots to be folded by hand, joggle2 sets the metal on its left off by 2 with a second fold';

const MOST_LINES = 100;
const FARTHEST_MM = 10_000;
const LARGEST_RADIUS_MM = 1000;
const [LEAST_JOGGLE_MM, MOST_JOGGLE_MM, STEEPEST_JOGGLE_DEG] = [0.1, 1000, 90];
const [LEAST_DEG, MOST_DEG] = [0.5, 180];
const LINES_APART_MM = 0.1;

/**
 * A field of fold lines; none unless given. The kind is text: to programs that fill in forms it is
 * a line to type.
 */
export const foldLines = (options: Said): Field<readonly GivenFoldLine[]> =>
  makeField(
    {
      kind: 'text',
      list: { one: 'fold line', many: 'fold lines' },
      ...saidOf(options),
      allowed: FOLD_LINES_ALLOWED,
      default: '',
      example: '0,40 120,40 90 up r3',
    },
    FOLD_LINES_INPUT,
    readFoldLines,
  );

/**
 * Reads fold lines. The refusal names the line that is wrong, counted from 1, and the point of it.
 */
export function readFoldLines(given: FoldLinesInput): FieldReading<readonly GivenFoldLine[]> {
  const entries = typeof given === 'string' ? entriesOf(given, MOST_LINES) : given;
  if (entries.length > MOST_LINES)
    return { ok: false, given: `${entries.length} fold lines`, mend: `give at most ${MOST_LINES}` };
  const lines: GivenFoldLine[] = [];
  for (const [index, entry] of entries.entries()) {
    const read = typeof entry === 'string' ? readText(entry) : readLine(entry);
    if (typeof read === 'string') {
      return {
        ok: false,
        given: `${shown(typeof entry === 'string' ? entry.trim() : entry)} as fold line ${index + 1}`,
        allowed: FOLD_LINES_ALLOWED,
        mend: read,
      };
    }
    lines.push(read);
  }
  return { ok: true, value: lines };
}

type Fields = Exclude<Exclude<FoldLinesInput, string>[number], string>;

function readText(entry: string): GivenFoldLine | string {
  const [from, to, angle, direction, ...more] = entry
    .trim()
    .replace(/\s*,\s*/g, ',')
    .split(/\s+/);
  if (from === undefined || to === undefined || angle === undefined || direction === undefined) {
    return 'write two points, the angle, and up or down, with spaces between them, such as 0,40 120,40 90 up';
  }
  const behind = readBehind(more);
  return typeof behind === 'string' ? behind : readLine({ from, to, angle, direction, ...behind });
}

/** The words behind the direction, in any order, each at most once. */
function readBehind(words: readonly string[]): Pick<Fields, 'r' | 'joggle' | 'slots'> | string {
  const read: { r?: string; joggle?: string; slots?: boolean } = {};
  for (const word of words) {
    const [, key, value] = /^(r|joggle|slots)(.*)$/i.exec(word) ?? [];
    const name = key?.toLowerCase() as keyof typeof read | undefined;
    if (name === undefined)
      return `after up or down, write the radius as r3, slots, or the offset as joggle2, not ${shown(word)}`;
    if (read[name] !== undefined) return `write ${name} once`;
    if (name === 'slots' && value !== '') return 'write slots alone';
    if (name === 'slots') read.slots = true;
    else read[name] = value ?? '';
  }
  return read;
}

function readLine(fields: Fields): GivenFoldLine | string {
  const from = readPoint('first point', fields.from);
  const to = readPoint('second point', fields.to);
  const mostDeg = fields.joggle === undefined ? MOST_DEG : STEEPEST_JOGGLE_DEG;
  const angleDeg = readNumber('angle', fields.angle, parseAngle, LEAST_DEG, mostDeg, 'degrees');
  const word = fields.direction.trim().toLowerCase();
  const direction = word === 'up' || word === 'down' ? word : undefined;
  const radius =
    fields.r === undefined
      ? undefined
      : readNumber('r', fields.r, parseLength, 0, LARGEST_RADIUS_MM, 'mm');
  const joggle =
    fields.joggle === undefined
      ? undefined
      : readNumber('joggle', fields.joggle, parseLength, LEAST_JOGGLE_MM, MOST_JOGGLE_MM, 'mm');
  if (
    typeof from !== 'string' &&
    typeof to !== 'string' &&
    typeof angleDeg === 'number' &&
    direction !== undefined &&
    typeof radius !== 'string' &&
    typeof joggle !== 'string'
  ) {
    if (isOnePoint(from, to))
      return 'the two points lie on each other: give two that are apart on the line';
    return {
      from,
      to,
      angleDeg,
      direction,
      ...(radius !== undefined && { insideRadiusMm: radius }),
      ...(fields.slots === true && { slots: true }),
      ...(joggle !== undefined && { joggleMm: joggle }),
    };
  }
  const wrong = [from, to, angleDeg, radius, joggle].filter((value) => typeof value === 'string');
  return [...wrong, ...(direction === undefined ? ['direction: write up or down'] : [])].join('; ');
}

const isOnePoint = (from: Place, to: Place): boolean =>
  'at' in from && 'at' in to
    ? distance(from.at, to.at) < LINES_APART_MM
    : 'name' in from && 'name' in to && from.name === to.name;

function readPoint(which: string, given: string): Place | string {
  if (isNameAmongFigures(given.trim())) return { name: given.trim() };
  const [x, y, ...more] = given.split(',');
  if (x === undefined || y === undefined || more.length > 0)
    return `${which}: write x,y or the name of a point`;
  const place = [x, y].map((text) =>
    readNumber(which, text, parseLength, -FARTHEST_MM, FARTHEST_MM, 'mm'),
  );
  const [px, py] = place;
  if (typeof px === 'number' && typeof py === 'number') return { at: [px, py] };
  return place.filter((value) => typeof value === 'string').join('; ');
}

function readNumber(
  which: string,
  given: number | string,
  parse: typeof parseLength,
  least: number,
  most: number,
  unit: string,
): number | string {
  const parsed = typeof given === 'number' ? ({ ok: true, value: given } as const) : parse(given);
  if (!parsed.ok) return `${which}: ${parsed.reason}`;
  return parsed.value >= least && parsed.value <= most
    ? parsed.value
    : `${which}: must lie between ${least} and ${most} ${unit}`;
}
