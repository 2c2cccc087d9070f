import { cosDeg, sinDeg } from '../geometry/degrees.ts';
import { parseAngle, parseLength, parseNumber } from '../text/units.ts';
import { bad, good, type Reading, reasonsOf } from './hole-reading.ts';

/** How far each hole of a pattern lies from the place it is given at, mm: across and along. */
export interface HolePattern {
  readonly offsets: readonly (readonly [acrossMm: number, alongMm: number])[];
  /** What is left of the text: the size of every hole. */
  readonly size: string;
}

export const PATTERN_ALLOWED =
  "Before a size, 4 off PC 95 puts 4 holes evenly on a circle of 95 round the place, grid 3 x 4 pitch 20 (or 20 x 25) puts 3 across and 4 along with the place in the middle; @45 behind either's last figure turns it";

const MOST_IN_PATTERN = 20_000;
const LARGEST_MM = 10_000;

const CIRCLE = /^(\S+)\s*off\s+pc\s*(.+?)(?:@\s*(\S+))?\s+(\S.*)$/i;
const GRID =
  /^grid\s+(\S+?)\s*[x×]\s*(\S+)\s+pitch\s+(\S+?)(?:\s+[x×]\s+(\S+?))?(?:@\s*(\S+))?\s+(\S.*)$/i;

/**
 * Reads what stands before the size: `4 off PC 95 M6`, the first hole along the fold from the
 * middle and the others on round from there counter-clockwise; `grid 3 x 4 pitch 20 M6`. A size
 * alone is one hole at its place.
 */
export function readPattern(text: string): Reading<HolePattern> {
  if (/\boff\b/i.test(text)) return readCircle(text);
  return /^grid\b/i.test(text) ? readGrid(text) : good({ offsets: [[0, 0]], size: text });
}

function readCircle(text: string): Reading<HolePattern> {
  const [, count = '', diameter = '', turn = '0', size] = CIRCLE.exec(text) ?? [];
  if (size === undefined)
    return bad('write holes on a pitch circle as 4 off PC 95 and the size, such as 4 off PC 95 M6');
  const [n, mm, deg] = [
    readCount('number of holes', count, 2),
    readSize('pitch circle', diameter),
    readTurn(turn),
  ];
  if (!n.ok || !mm.ok || !deg.ok) return bad(...reasonsOf(n, mm, deg));
  const offsets = Array.from({ length: n.value }, (_, i): readonly [number, number] => {
    const at = deg.value + (360 * i) / n.value;
    return [(mm.value / 2) * sinDeg(at), (mm.value / 2) * cosDeg(at)];
  });
  return good({ offsets, size });
}

function readGrid(text: string): Reading<HolePattern> {
  const [, rows = '', columns = '', pitch = '', other = pitch, turn = '0', size] =
    GRID.exec(text) ?? [];
  if (size === undefined)
    return bad(
      'write a grid as grid 3 x 4 pitch 20 and the size, such as grid 3 x 4 pitch 20 M6: 3 across, 4 along, 20 apart',
    );
  const [across, along] = [
    readCount('holes across', rows, 1),
    readCount('holes along', columns, 1),
  ];
  const [acrossMm, alongMm, deg] = [
    readSize('pitch', pitch),
    readSize('pitch', other),
    readTurn(turn),
  ];
  if (!across.ok || !along.ok || !acrossMm.ok || !alongMm.ok || !deg.ok)
    return bad(...reasonsOf(across, along, acrossMm, alongMm, deg));
  if (across.value * along.value > MOST_IN_PATTERN)
    return bad(`a grid has at most ${MOST_IN_PATTERN} holes`);
  const [c, s] = [cosDeg(deg.value), sinDeg(deg.value)];
  const offsets = Array.from(
    { length: across.value * along.value },
    (_, i): readonly [number, number] => {
      const a = (Math.floor(i / along.value) - (across.value - 1) / 2) * acrossMm.value;
      const l = ((i % along.value) - (along.value - 1) / 2) * alongMm.value;
      return [a * c + l * s, l * c - a * s];
    },
  );
  return good({ offsets, size });
}

function readCount(which: string, text: string, least: number): Reading<number> {
  const read = parseNumber(text);
  if (!read.ok) return bad(`${which}: ${read.reason}`);
  return Number.isInteger(read.value) && read.value >= least && read.value <= MOST_IN_PATTERN
    ? read
    : bad(`${which}: a whole number from ${least} to ${MOST_IN_PATTERN}`);
}

function readSize(which: string, text: string): Reading<number> {
  const read = parseLength(text);
  if (!read.ok) return bad(`${which}: ${read.reason}`);
  return read.value > 0 && read.value <= LARGEST_MM
    ? read
    : bad(`${which}: more than 0 and at most ${LARGEST_MM} mm`);
}

const readTurn = (text: string): Reading<number> => {
  const read = parseAngle(text);
  return read.ok ? read : bad(`turn: ${read.reason}`);
};
