import type { Vec2 } from '../../geometry/vec2.ts';
import type { PictureItem } from '../../model/picture.ts';
import type { Tick } from '../sizes/ticks.ts';
import type { Line2 } from './ground.ts';
import { CENTRE, NARROW } from './line-types.ts';
import {
  type DrawnRow,
  frameOf,
  labelAt,
  type RowFigure,
  type SizeRow,
  tickLines,
  type Written,
} from './size-row.ts';
import { line } from './strokes.ts';
import { textWidthMm } from './text-width.ts';

/** From the blank to the dimension line of a chain, and how far lines go beyond each other there, mm. */
const CHAIN_MM = 4.5;
const BEYOND_MM = 0.8;
/** Half of an oblique stroke, in either direction, mm. */
const STROKE_MM = 0.9;
/** What a figure leaves to either side of it between two lines, mm. */
const CLEAR_MM = 1;
/** Figures moved by less than this stand where they belong, mm. */
const MOVED_MM = 0.03;

/**
 * The figures of a chain: that of the place nearest the datum, from there, and from each place to the
 * next. They are differences of rounded sizes, so that their sums are as true as sizes from the datum.
 */
export const chainFigures = (ticks: readonly Tick[]): RowFigure[] => {
  const base = baseOf(ticks);
  return ticks.flatMap((tick, i): RowFigure[] => {
    const before = ticks[i - 1];
    return [
      ...(before === undefined
        ? []
        : [
            {
              text: tick.fromBefore,
              mm: (before.mm + tick.mm) / 2,
            },
          ]),
      ...(tick === base ? [{ text: baseText(tick), mm: tick.mm, tick }] : []),
    ];
  });
};

/** Told apart from the figures between lines. */
const baseText = ({ names, value, figure }: Tick): string =>
  [names, value === 0 ? '0' : `0 to ${figure}`].filter((t) => t !== '').join('  ');

const baseOf = (ticks: readonly Tick[]): Tick | undefined =>
  ticks.reduce<Tick | undefined>(
    (best, tick) =>
      best === undefined || Math.abs(tick.value) < Math.abs(best.value) ? tick : best,
    undefined,
  );

/**
 * A chain of sizes (ISO 129-1, from memory): one dimension line with an oblique stroke at each place,
 * figures between them, or led out where there is no room.
 */
export const chainRow = (row: SizeRow, written: readonly Written[]): DrawnRow => {
  const { ticks, onPaper } = row;
  const frame = frameOf(row, CHAIN_MM);
  const { out, knee, end, at } = frame;
  const isRoomy = written.every((w) => w.tick !== undefined || hasRoom(row, w));
  const base = written.find(({ tick }) => tick !== undefined);
  const stems = ticks.map((tick) => {
    const place = onPaper(tick.mm);
    const [stem] = tickLines(tick, { wanted: place, place }, frame);
    const line2: Line2 = tick === base?.tick ? stem : [stem[0], at(place, knee + out * BEYOND_MM)];
    return { tick, line: line2, place };
  });
  const places = stems.map(({ place }) => place);
  const shaft: Line2[] =
    stems.length < 2
      ? []
      : [[at(Math.min(...places) - BEYOND_MM, knee), at(Math.max(...places) + BEYOND_MM, knee)]];
  const leaders = written
    .filter(({ tick }) => tick !== undefined || !isRoomy)
    .map(({ wanted, place }): Line2 => [at(wanted, knee), at(place, end)]);
  return {
    extensions: [...stems.map((s) => s.line), ...shaft, ...leaders],
    lines: [
      ...stems.map((s) => line(...s.line, s.tick.isCentre === true ? CENTRE : NARROW)),
      ...[...shaft, ...leaders].map((l) => line(...l, NARROW)),
      ...(shaft.length === 0 ? [] : places.map((place) => stroke(at(place, knee)))),
    ],
    labels: written.map((w) =>
      labelAt(row, w, frame, w.tick !== undefined || !isRoomy ? end : knee),
    ),
  };
};

/** Whether a figure stands between its two lines, clear of both. */
const hasRoom = (
  { ticks, onPaper, side, isLevel }: SizeRow,
  { wanted, place, text, sizeMm }: Written,
): boolean => {
  if (Math.abs(place - wanted) > MOVED_MM) return false;
  const isAlong = (side === 'below' || side === 'above') && isLevel;
  const half = (isAlong ? textWidthMm(text, sizeMm, true) : sizeMm) / 2 + CLEAR_MM;
  return ticks.every((tick) => Math.abs(onPaper(tick.mm) - wanted) >= half);
};

const stroke = ([x, y]: Vec2): PictureItem =>
  line([x - STROKE_MM, y - STROKE_MM], [x + STROKE_MM, y + STROKE_MM], { widthMm: 0.35 });
