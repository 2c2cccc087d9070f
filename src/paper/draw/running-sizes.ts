import type { Vec2 } from '../../geometry/vec2.ts';
import type { Label, PictureItem } from '../../model/picture.ts';
import type { Side, Tick } from '../sizes/ticks.ts';
import { CENTRE, NARROW } from './line-types.ts';
import { line } from './strokes.ts';
import { textWidthMm } from './text-width.ts';

/**
 * A row of running sizes beside the blank: all from one datum, each with an extension line to its
 * figure.
 */
export interface SizeRow {
  readonly side: Side;
  /** `from`, where their lines begin, on the paper. */
  readonly ticks: readonly Tick[];
  /** Takes a measure on the blank to the paper, along the row. */
  readonly onPaper: (mm: number) => number;
  /** How far along the row figures may stand. */
  readonly span: readonly [low: number, high: number];
  /** The level of the edge of the blank beside which the row lies. */
  readonly edge: number;
  /** Figures of the row are written level, although its lines are upright. */
  readonly isLevel: boolean;
}

export interface DrawnRow {
  readonly lines: readonly PictureItem[];
  readonly extensions: readonly (readonly [Vec2, Vec2])[];
  readonly labels: readonly Label[];
}

/**
 * From the blank to the knee of an extension line, from there to the figure, and to its letters,
 * mm.
 */
const KNEE_MM = 2.5;
const JOG_MM = 5;
const GAP_MM = 1;
/** An extension line begins so far off what it belongs to (ISO 129-1, from memory), mm. */
const FOOT_MM = 0.8;
const LINES_MM = KNEE_MM + JOG_MM + GAP_MM;
/** Letters of the figures, the largest that find room, and the least, mm. */
const SIZES_MM = [4.6, 3.8, 3.2] as const;
const LEAST_LETTERS_MM = 3.2;
/** From one figure to the next, in sizes of their letters; between level ones, mm. */
const PITCH = 1.1;
const LEVEL_GAP_MM = 2.5;
/** Level figures stand no farther than this from where they belong, mm. */
const MOST_ASIDE_MM = 7;

/** How many figures stand beside each other on so much room. */
export const mostIn = (roomMm: number): number => Math.floor(roomMm / (PITCH * LEAST_LETTERS_MM));

const sizeFor = (count: number, roomMm: number): number =>
  SIZES_MM.find((s) => count * PITCH * s <= roomMm) ?? LEAST_LETTERS_MM;

/** Width that the figures of a row take, square to it, on so much room along it. */
export const rowDepthMm = (ticks: readonly Tick[], roomMm: number, isLevel: boolean): number => {
  if (ticks.length === 0) return 0;
  const sizeMm = sizeFor(ticks.length, roomMm);
  return isLevel
    ? LINES_MM + SIZES_MM[0]
    : LINES_MM + Math.max(...ticks.map((t) => textWidthMm(t.text, sizeMm, true))) + 1;
};

/** Whether the figures of a row of upright lines can be written level, each near its line. */
export const canBeLevel = ({ ticks, onPaper, span }: Omit<SizeRow, 'isLevel'>): boolean => {
  const gap = levelGap(ticks);
  if (ticks.length * gap > span[1] - span[0]) return false;
  const wanted = ticks.map((t) => onPaper(t.mm));
  const places = spread(wanted, gap, [span[0] + gap / 2, span[1] - gap / 2]);
  return places.every((p, i) => Math.abs(p - (wanted[i] as number)) <= MOST_ASIDE_MM);
};

const levelGap = (ticks: readonly Tick[]): number =>
  Math.max(0, ...ticks.map((t) => textWidthMm(t.text, SIZES_MM[0], true))) + LEVEL_GAP_MM;

/**
 * The row drawn: running dimensions from a common zero as ISO 129-1 has them (from memory), figures
 * written along their extension lines, read from below or from the right, moved apart where they
 * would touch.
 */
export const sizeRow = (row: SizeRow): DrawnRow => {
  const { side, ticks, onPaper, span, isLevel } = row;
  const sizeMm = isLevel ? SIZES_MM[0] : sizeFor(ticks.length, span[1] - span[0]);
  const gap = isLevel ? levelGap(ticks) : PITCH * sizeMm;
  const places = spread(
    ticks.map((t) => onPaper(t.mm)),
    gap,
    [span[0] + gap / 2, span[1] - gap / 2],
  );
  const isUpright = side === 'below' || side === 'above';
  const at = (alongRow: number, across: number): Vec2 =>
    isUpright ? [alongRow, across] : [across, alongRow];
  const drawn = ticks.map((tick, i) => drawnTick(row, tick, places[i] as number, sizeMm, at));
  return {
    extensions: drawn.flatMap((d) => d.lines),
    lines: drawn.flatMap(({ lines: [[from, knee], jog], isCentre }) => [
      line(from, knee, isCentre ? CENTRE : NARROW),
      line(...jog, NARROW),
    ]),
    labels: drawn.map((d) => d.label),
  };
};

type TickLines = readonly [extension: readonly [Vec2, Vec2], jog: readonly [Vec2, Vec2]];

const drawnTick = (
  { side, onPaper, edge, isLevel }: SizeRow,
  tick: Tick,
  place: number,
  sizeMm: number,
  at: (alongRow: number, across: number) => Vec2,
): { readonly lines: TickLines; readonly label: Label; readonly isCentre: boolean } => {
  const out = side === 'below' || side === 'left' ? -1 : 1;
  const isUpright = side === 'below' || side === 'above';
  const wanted = onPaper(tick.mm);
  const knee = edge + out * KNEE_MM;
  const end = knee + out * JOG_MM;
  const isCentre = tick.isCentre === true;
  const start = isCentre ? tick.from : tick.from + out * FOOT_MM;
  const reach = end + out * GAP_MM;
  const text = { kind: 'label', sizeMm, text: tick.text, isBold: true } as const;
  const level = (): Label => ({
    ...text,
    at: at(place, reach - (out < 0 ? 0.74 * sizeMm : 0)),
    align: 'middle',
  });
  // On the base line; the middle of the letters stands on the extension line.
  const beside = (): Label => ({
    ...text,
    at: at(place + (isUpright ? 0.36 : -0.36) * sizeMm, reach),
    align: out < 0 ? 'right' : 'left',
    ...(isUpright && { angleDeg: 90 }),
  });
  return {
    lines: [
      [at(wanted, start), at(wanted, knee)],
      [at(wanted, knee), at(place, end)],
    ],
    label: isUpright && isLevel ? level() : beside(),
    isCentre,
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
