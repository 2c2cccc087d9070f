import type { Vec2 } from '../../geometry/vec2.ts';
import type { Label, Picture, PictureItem, Stroke } from '../../model/picture.ts';
import { arrow } from './dimension-line.ts';
import { boxRing, line } from './strokes.ts';

/** A line that a hole is measured from, by what is written at it, and how far off the hole is, in words. */
export interface Datum {
  readonly name: string;
  readonly distance: string;
}

/**
 * The cells in which the picture is laid out, mm, as wide and as high as a letter is to stand in: it
 * can be read from a terminal too.
 */
export const CELL_MM = { width: 4, height: 8 } as const;

const [COLUMNS, ROWS] = [24, 6];
const TEXT_MM = 5;
const HOLE_MM = 1.5;
/** Where the hole stands, in cells from the upper left. */
const [HOLE_COLUMN, HOLE_ROW] = [9, 1];

const DATUM: Stroke = { widthMm: 0.5 };
const THIN: Stroke = { widthMm: 0.18 };

/** The middle of a cell. */
const cell = (column: number, row: number): Vec2 => [
  (column + 0.5) * CELL_MM.width,
  (ROWS - row - 0.5) * CELL_MM.height,
];

/**
 * A hole in a corner of two lines, with its distance from each: from the upright one to the right,
 * from the level one upwards.
 */
export const datumPicture = (upright: Datum, level: Datum): Picture => {
  const corner = cell(0, ROWS - 1);
  const hole = cell(HOLE_COLUMN, HOLE_ROW);
  const top: Vec2 = [corner[0], hole[1] + CELL_MM.height / 2];
  const end: Vec2 = [12 * CELL_MM.width, corner[1]];
  const across = hole[0] - CELL_MM.width / 2;
  const under = hole[1] - CELL_MM.height / 2;
  return {
    widthMm: COLUMNS * CELL_MM.width,
    heightMm: ROWS * CELL_MM.height,
    items: [
      line(corner, top, DATUM),
      line(corner, end, DATUM),
      { kind: 'round', centre: hole, radiusMm: HOLE_MM, stroke: DATUM },
      ...distance([CELL_MM.width, hole[1]], [across, hole[1]], upright.distance),
      ...distance([hole[0], corner[1] + CELL_MM.height / 2], [hole[0], under], level.distance),
      named(upright.name, [0, cell(0, 0)[1]]),
      named(level.name, [13 * CELL_MM.width, corner[1]]),
    ],
  };
};

/** A text beside a place, its capitals level with it. */
const named = (text: string, [x, y]: Vec2, align: Label['align'] = 'left'): Label => ({
  kind: 'label',
  at: [x, y - 0.36 * TEXT_MM],
  sizeMm: TEXT_MM,
  text,
  align,
});

/** An arrow from point to point, broken under its text, which has a cell clear on either side. */
const distance = (from: Vec2, to: Vec2, text: string): PictureItem[] => {
  const way: Vec2 = from[1] === to[1] ? [1, 0] : [0, 1];
  const [x, y]: Vec2 = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const half = (text.length / 2 + way[0]) * CELL_MM.width;
  const clear = {
    minX: x - half,
    minY: y - CELL_MM.height / 2,
    maxX: x + half,
    maxY: y + CELL_MM.height / 2,
  };
  return [
    line(from, to, THIN),
    arrow(from, way, 1),
    arrow(to, way, -1),
    { kind: 'area', rims: [boxRing(clear)], fill: 1 },
    named(text, [x, y], 'middle'),
  ];
};
