import { figure } from '../../text/figures.ts';
import type { Extents } from '../../geometry/extents.ts';
import type { Loop } from '../../geometry/loop.ts';
import { piecesOf } from '../../geometry/piece.ts';
import { circle } from '../../geometry/shapes.ts';
import { along, leftOf, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { FlatBend, FlatPattern } from '../../model/flat.ts';
import type { Label, PictureItem, Stroke } from '../../model/picture.ts';
import { rimLines } from './blank-obstacles.ts';
import { TEXT_MM, textAlong } from './dimension-line.ts';
import type { Fitting } from './dimensioned-blank.ts';
import type { DrawingHead } from './drawing-head.ts';
import { type Line2, textGround } from './ground.ts';
import { CLEAR_MM, NEVER_ACROSS } from './place-dimensions.ts';
import { type Candidate, Placer } from './placer.ts';
import { line } from './strokes.ts';
import { rowsIn, table, tableHeightMm } from './table.ts';
import { TITLE_MM } from './title-block.ts';
import { readableWay } from './readable.ts';
import { drawingScale } from './scales.ts';

/**
 * A length or an angle of the finished part in words; `plusMinus` is what it may be off, empty
 * where nothing is laid down.
 */
export interface ListedMeasure {
  readonly name: string;
  readonly text: string;
  readonly plusMinus: string;
}

export interface BlankDrawing {
  readonly head: DrawingHead;
  readonly flat: FlatPattern;
  readonly measures: readonly ListedMeasure[];
}

export interface BlankPage {
  readonly items: readonly PictureItem[];
  readonly scale: string;
}

const OUTLINE: Stroke = { widthMm: 0.5 };
const UP: Stroke = { widthMm: 0.25 };
const DOWN: Stroke = { widthMm: 0.25, dashMm: [6, 1.5, 1, 1.5] };

const BENDS = [
  { heading: 'Bend', widthMm: 14 },
  { heading: 'Way', widthMm: 16 },
  { heading: 'Turned by', widthMm: 20, align: 'right' },
  { heading: 'Faces at', widthMm: 20, align: 'right' },
  { heading: 'Inside R', widthMm: 18, align: 'right' },
  { heading: 'Fold line from x, y', widthMm: 44, align: 'right' },
  { heading: 'to x, y', widthMm: 44, align: 'right' },
] as const;

const MEASURES = [
  { heading: 'To be measured on the finished part', widthMm: 118 },
  { heading: 'mm or degrees', widthMm: 30, align: 'right' },
  { heading: 'may be off', widthMm: 28, align: 'right' },
] as const;

const TABLES_LEFT = 214;
const SPACE_MM = 8;

/**
 * Pages with the blank and its fold lines, the table of bends, and the measures; as many as the
 * tables need.
 */
export const blankPages = ({ head, flat, measures }: BlankDrawing, frame: Extents): BlankPage[] => {
  const top = frame.maxY - SPACE_MM;
  const bottom = frame.minY + TITLE_MM.height + SPACE_MM;
  const bends = flat.bends.map((bend) => bendRow(bend));
  const blank = blankItems(head, flat, {
    minX: frame.minX,
    minY: frame.minY,
    maxX: TABLES_LEFT - SPACE_MM,
    maxY: frame.maxY,
  });
  const pages: PictureItem[][] = [[...blank.items]];
  let [y, left] = [top, TABLES_LEFT];
  const put = (
    columns: Parameters<typeof table>[0],
    rows: readonly (readonly string[])[],
  ): void => {
    for (let rest = rows; rest.length > 0;) {
      const room = rowsIn(y - bottom);
      if (room < Math.min(3, rest.length)) {
        [y, left] = [top, frame.minX + SPACE_MM];
        pages.push([]);
        continue;
      }
      const now = rest.slice(0, room);
      pages.at(-1)?.push(...table(columns, now, [left, y]));
      y -= tableHeightMm(now.length) + SPACE_MM;
      rest = rest.slice(room);
    }
  };
  put(BENDS, bends);
  put(
    MEASURES,
    measures.map((m) => [m.name, m.text, m.plusMinus]),
  );
  return pages.map((items) => ({ items, scale: blank.scale }));
};

const bendRow = ({
  id,
  direction,
  angleDeg,
  insideRadiusMm,
  centreLine: [a, b],
}: FlatBend): string[] => [
  id,
  direction.toUpperCase(),
  `${figure(angleDeg)}°`,
  `${figure(180 - angleDeg)}°`,
  figure(insideRadiusMm),
  ...[a, b]
    .toSorted((p, q) => Math.round(p[0] - q[0]) || p[1] - q[1])
    .map((p) => p.map(fixed).join(', ')),
];

const NOTES = [
  'Blank as it lies in the DXF, seen from its upper face; x, y from its lower left corner.',
  'UP: folded towards you. DOWN (line with dots): folded away from you.',
  'Turned by: from flat. Faces at: angle between the faces on the inside of the bend.',
];

/** A blank is not drawn larger than this: its page is for its figures. */
const LARGEST_SCALE = 2;

const blankItems = (head: DrawingHead, flat: FlatPattern, room: Extents): BlankPage => {
  const notes = NOTES.length * 6 + 24;
  const { scale, text: scaleText } = drawingScale(
    (s) =>
      s * flat.widthMm <= room.maxX - room.minX - 30 &&
      s * flat.heightMm <= room.maxY - room.minY - notes - 30,
    LARGEST_SCALE,
  );
  const x = (room.minX + room.maxX - scale * flat.widthMm) / 2;
  const y =
    room.maxY -
    20 -
    (room.maxY - room.minY - notes - 30 - scale * flat.heightMm) / 2 -
    scale * flat.heightMm;
  const fitting: Fitting = { scale, at: ([u, v]) => [x + scale * u, y + scale * v] };
  return {
    scale: scaleText,
    items: [
      ...rimsOf(flat).map((loop) => rimItem(loop, fitting)),
      ...foldLines(flat, fitting, room),
      ...originItems([x, y]),
      ...noteItems(head, flat, room),
    ],
  };
};

const rimsOf = ({ outline, cutouts }: FlatPattern): Loop[] => [
  outline,
  ...cutouts.map((c) => (c.kind === 'round' ? circle(c.centre, c.diameterMm / 2) : c.loop)),
];

const rimItem = (loop: Loop, { at }: Fitting): PictureItem => ({
  kind: 'curve',
  stroke: OUTLINE,
  pieces: piecesOf(loop).map((p) => ({ from: at(p.from), to: at(p.to), bulge: p.bulge })),
});

const noteItems = (head: DrawingHead, flat: FlatPattern, room: Extents): PictureItem[] => [
  {
    kind: 'label',
    at: [room.minX + SPACE_MM, room.minY + NOTES.length * 6 + 6],
    sizeMm: 5,
    isBold: true,
    text: `Blank ${figure(flat.widthMm)} x ${figure(flat.heightMm)} mm, ${head.sheet}`,
  },
  ...NOTES.map((text, i): PictureItem => ({
    kind: 'label',
    at: [room.minX + SPACE_MM, room.minY + 5 + (NOTES.length - 1 - i) * 6],
    sizeMm: 3.8,
    text,
  })),
];

/**
 * Fold lines with their names and ways along them, as far as there is room: a fan of them is told
 * apart in the table.
 */
const foldLines = (flat: FlatPattern, fitting: Fitting, within: Extents): PictureItem[] => {
  const placer = new Placer(within, NEVER_ACROSS);
  const lines = flat.bends.map(({ centreLine: [a, b] }): Line2 => [fitting.at(a), fitting.at(b)]);
  const rims = rimsOf(flat).flatMap((loop) => rimLines(loop, fitting));
  placer.avoid(...[...rims, ...lines].map((l) => ({ line: l, cost: Infinity })));
  return flat.bends.flatMap(({ id, direction }, i): PictureItem[] => {
    const [from, to] = lines[i] as Line2;
    const placed = placer.place(namePlaces(`${id} ${direction.toUpperCase()}`, from, to));
    return [
      line(from, to, direction === 'up' ? UP : DOWN),
      ...(placed === undefined ? [] : [placed.text]),
    ];
  });
};

const SIZES_MM = [TEXT_MM, 2.8, 2];
const SHARES = [0.5, 0.3, 0.7, 0.15, 0.85];

/** Places for a text along a line, the largest and most in the middle first. */
const namePlaces = (text: string, a: Vec2, b: Vec2): (Candidate & { readonly text: Label })[] => {
  const reading = readableWay(unit(sub(b, a)));
  return SIZES_MM.flatMap((sizeMm) =>
    SHARES.flatMap((share) =>
      [0.22 * sizeMm + 0.9, -0.74 * sizeMm - 0.9].map((lift) => {
        const at = along(along(a, sub(b, a), share), leftOf(reading), lift);
        const label = textAlong(reading, text, sizeMm)(at);
        return { text: label, grounds: [textGround(label, CLEAR_MM)] };
      }),
    ),
  );
};

/** To a hundredth, never a zero with a minus. */
const fixed = (value: number): string => (Math.round(value * 100) / 100 + 0).toFixed(2);

/** Where x and y are counted from. */
const originItems = ([x, y]: Vec2): PictureItem[] => [
  line([x - 9, y], [x + 3, y], UP),
  line([x, y - 9], [x, y + 3], UP),
  { kind: 'label', at: [x - 1.5, y - 5], sizeMm: 3.5, text: '0, 0', align: 'right' },
];
