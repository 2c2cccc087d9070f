import type { Tick } from '../sizes/ticks.ts';
import { CENTRE, NARROW } from './line-types.ts';
import { line } from './strokes.ts';
import { chainFigures, chainRow } from './size-chain.ts';
import {
  type DrawnRow,
  frameOf,
  GAP_MM,
  JOG_MM,
  KNEE_MM,
  labelAt,
  type RowFigure,
  type SizeRow,
  tickLines,
  type Written,
} from './size-row.ts';
import { textWidthMm } from './text-width.ts';

const LINES_MM = KNEE_MM + JOG_MM + GAP_MM;
/** Letters of the figures, the largest that find room, and the least, mm. */
const SIZES_MM = [4.6, 3.8, 3.2] as const;
const LEAST_LETTERS_MM = 3.2;
/** From one figure to the next, in sizes of their letters; between level ones, mm. */
const PITCH = 1.1;
const LEVEL_GAP_MM = 2.5;
/** Level figures stand no farther than this from where they belong, mm. */
const MOST_ASIDE_MM = 7;

/** The figures of a row in their order along it. */
const figuresOf = (ticks: readonly Tick[], isChain: boolean): RowFigure[] =>
  isChain ? chainFigures(ticks) : ticks.map((tick) => ({ text: tick.text, mm: tick.mm, tick }));

/** How many figures stand beside each other on so much room. */
export const mostIn = (roomMm: number): number => Math.floor(roomMm / (PITCH * LEAST_LETTERS_MM));

const sizeFor = (count: number, roomMm: number): number =>
  SIZES_MM.find((s) => count * PITCH * s <= roomMm) ?? LEAST_LETTERS_MM;

/** Width that the figures of a row take, square to it, on so much room along it. */
export const rowDepthMm = (
  { ticks, isChain, isLevel }: Pick<SizeRow, 'ticks' | 'isChain' | 'isLevel'>,
  roomMm: number,
): number => {
  if (ticks.length === 0) return 0;
  const texts = figuresOf(ticks, isChain);
  const sizeMm = sizeFor(texts.length, roomMm);
  return isLevel
    ? LINES_MM + SIZES_MM[0]
    : LINES_MM + Math.max(...texts.map((t) => textWidthMm(t.text, sizeMm, true))) + 1;
};

/** Whether the figures of a row of upright lines can be written level, each near its line. */
export const canBeLevel = ({
  ticks,
  onPaper,
  span,
  isChain,
}: Omit<SizeRow, 'isLevel'>): boolean => {
  const texts = figuresOf(ticks, isChain);
  const gap = levelGap(texts);
  if (texts.length * gap > span[1] - span[0]) return false;
  const wanted = texts.map((t) => onPaper(t.mm));
  const places = spread(wanted, gap, [span[0] + gap / 2, span[1] - gap / 2]);
  return places.every((p, i) => Math.abs(p - (wanted[i] as number)) <= MOST_ASIDE_MM);
};

const levelGap = (texts: readonly RowFigure[]): number =>
  Math.max(0, ...texts.map((t) => textWidthMm(t.text, SIZES_MM[0], true))) + LEVEL_GAP_MM;

/**
 * The row drawn: running dimensions from a common zero as ISO 129-1 has them (from memory), figures
 * written along their extension lines, read from below or from the right, moved apart where they
 * would touch; or a chain of sizes along one dimension line.
 */
export const sizeRow = (row: SizeRow): DrawnRow => {
  const { ticks, onPaper, span, isLevel, isChain } = row;
  const texts = figuresOf(ticks, isChain);
  const sizeMm = isLevel ? SIZES_MM[0] : sizeFor(texts.length, span[1] - span[0]);
  const gap = isLevel ? levelGap(texts) : PITCH * sizeMm;
  const wanted = texts.map((t) => onPaper(t.mm));
  const places = spread(wanted, gap, [span[0] + gap / 2, span[1] - gap / 2]);
  const written = texts.map((text, i): Written => ({
    ...text,
    wanted: wanted[i] as number,
    place: places[i] as number,
    sizeMm,
  }));
  return isChain ? chainRow(row, written) : runningRow(row, written);
};

const runningRow = (row: SizeRow, written: readonly Written[]): DrawnRow => {
  const frame = frameOf(row);
  const drawn = written.flatMap(({ tick, ...figure }) =>
    tick === undefined ? [] : [{ tick, lines: tickLines(tick, figure, frame), figure }],
  );
  return {
    extensions: drawn.flatMap(({ lines }) => lines),
    lines: drawn.flatMap(({ tick, lines: [stem, jog] }) => [
      line(...stem, tick.isCentre === true ? CENTRE : NARROW),
      line(...jog, NARROW),
    ]),
    labels: drawn.map(({ figure }) => labelAt(row, figure, frame, frame.end)),
  };
};

/**
 * Places as near to the wanted ones as may be, rising, at least `gap` apart, within a span (pooling
 * of neighbours that would overlap).
 */
export const spread = (
  wanted: readonly number[],
  gap: number,
  [low, high]: readonly [number, number],
): number[] => {
  const pools: { sum: number; count: number }[] = [];
  for (const [i, value] of wanted.entries()) {
    pools.push({ sum: value - i * gap, count: 1 });
    for (;;) {
      const [last, before] = [pools.at(-1), pools.at(-2)];
      if (
        last === undefined ||
        before === undefined ||
        before.sum / before.count <= last.sum / last.count
      )
        break;
      pools.splice(-2, 2, { sum: before.sum + last.sum, count: before.count + last.count });
    }
  }
  const highest = high - Math.max(0, wanted.length - 1) * gap;
  return pools
    .flatMap(({ sum, count }) => Array.from({ length: count }, () => sum / count))
    .map((v, i) => Math.max(low, Math.min(highest, v)) + i * gap);
};
