import type { Vec2 } from '../../geometry/vec2.ts';
import type { Label, PictureItem, Stroke } from '../../model/picture.ts';
import { line } from './strokes.ts';
import { textWidthMm } from './text-width.ts';
import { SAME_POINT_MM } from '../../geometry/tolerance.ts';

/** A place that is measured from the common zero. */
export interface Tick {
  /** On the blank, mm from its zero edge. */
  readonly mm: number;
  /** Where its extension line begins, across the row, on the paper. */
  readonly from: number;
  readonly text: string;
  /** Those of little use are left out first where there is no room. */
  readonly rank: number;
}

export type Side = 'below' | 'left' | 'above' | 'right';

/**
 * A row of running sizes beside the blank: all from one edge, each with an extension line to its
 * figure.
 */
export interface SizeRow {
  readonly side: Side;
  readonly ticks: readonly Tick[];
  /** Takes a measure on the blank to the paper, along the row. */
  readonly onPaper: (mm: number) => number;
  /** How far along the row figures may stand. */
  readonly span: readonly [low: number, high: number];
  /** The level of the edge of the blank beside which the row lies. */
  readonly edge: number;
}

export interface DrawnRow {
  readonly lines: readonly PictureItem[];
  readonly extensions: readonly (readonly [Vec2, Vec2])[];
  readonly labels: readonly Label[];
  /** What found no room. */
  readonly leftOut: number;
}

export const EXTENSION: Stroke = { widthMm: 0.18 };
/**
 * From the blank to the knee of an extension line, from there to the figure, and to its letters,
 * mm.
 */
const KNEE_MM = 2.5;
const JOG_MM = 5;
const GAP_MM = 1;
export const ROW_LINES_MM = KNEE_MM + JOG_MM + GAP_MM;
const SIZES_MM = [4.6, 3.8, 3.2, 2.8] as const;
/** From one figure to the next, in sizes of their letters. */
const PITCH = 1.1;

/** Width that the figures of a row take, square to it. */
export const rowDepthMm = (ticks: readonly Tick[]): number =>
  ticks.length === 0
    ? 0
    : ROW_LINES_MM + Math.max(...ticks.map((t) => textWidthMm(t.text, SIZES_MM[0], true))) + 1;

/**
 * The row drawn: running dimensions from a common zero as ISO 129-1 has them (from memory), figures
 * written along their extension lines, read from below or from the right, moved apart where they
 * would touch.
 */
export const sizeRow = ({ side, ticks, onPaper, span, edge }: SizeRow): DrawnRow => {
  const room = span[1] - span[0];
  const sizeMm =
    SIZES_MM.find((s) => ticks.length * PITCH * s <= room) ?? (SIZES_MM.at(-1) as number);
  const most = Math.floor(room / (PITCH * sizeMm));
  const kept = ticks
    .toSorted((a, b) => a.rank - b.rank || a.mm - b.mm)
    .slice(0, most)
    .toSorted((a, b) => a.mm - b.mm);
  const places = spread(
    kept.map((t) => onPaper(t.mm)),
    PITCH * sizeMm,
    [span[0] + (PITCH * sizeMm) / 2, span[1] - (PITCH * sizeMm) / 2],
  );
  const isUpright = side === 'below' || side === 'above';
  const out = side === 'below' || side === 'left' ? -1 : 1;
  const at = (alongRow: number, across: number): Vec2 =>
    isUpright ? [alongRow, across] : [across, alongRow];
  const drawn = kept.map((tick, i) => {
    const [wanted, place] = [onPaper(tick.mm), places[i] as number];
    const knee = edge + out * KNEE_MM;
    const end = knee + out * JOG_MM;
    const start = Math.abs(tick.from - edge) < SAME_POINT_MM ? edge + out * 0.7 : tick.from;
    const lines: readonly (readonly [Vec2, Vec2])[] = [
      [at(wanted, start), at(wanted, knee)],
      [at(wanted, knee), at(place, end)],
    ];
    const reach = end + out * GAP_MM;
    // On the base line; the middle of the letters stands on the extension line.
    const base = isUpright ? at(place + 0.36 * sizeMm, reach) : at(place - 0.36 * sizeMm, reach);
    const label: Label = {
      kind: 'label',
      at: base,
      sizeMm,
      text: tick.text,
      isBold: true,
      align: out < 0 ? 'right' : 'left',
      ...(isUpright && { angleDeg: 90 }),
    };
    return { lines, label };
  });
  const extensions = drawn.flatMap((d) => d.lines);
  return {
    extensions,
    lines: extensions.map(([from, to]) => line(from, to, EXTENSION)),
    labels: drawn.map((d) => d.label),
    leftOut: ticks.length - kept.length,
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
