import type { Extents } from '../../geometry/extents.ts';
import { along, sub, type Vec2 } from '../../geometry/vec2.ts';
import type { Picture, PictureItem, Stroke } from '../../model/picture.ts';
import { cardFoot, type FootOf } from './card-foot.ts';
import {
  type CardLayout,
  letters,
  OVERLAP_MM,
  type Tile,
  tileAt,
  tileName,
} from './card-layout.ts';
import { discGround, textGround } from './ground.ts';
import { LEAST_LINE_MM, NARROW } from './line-types.ts';
import { NO_BOUNDS, Placer } from './placer.ts';
import { quarterTurn } from './quarter-turn.ts';
import { boxRing, line, ring } from './strokes.ts';

const FRAME: Stroke = { widthMm: LEAST_LINE_MM, shade: 0.5 };
const CHECK: Stroke = { widthMm: 0.35 };
const CHECK_MM = 100;

/**
 * What is drawn at true size, on the pages of its layout: with joining marks where pages overlap,
 * check lines of 100 mm, and what each page is of at its foot.
 */
export function cardSheets(
  lines: readonly PictureItem[],
  layout: CardLayout,
  told: FootOf,
): Picture[] {
  const laid = layout.isTurned ? quarterTurn(lines, told.widthMm) : lines;
  const all = [...laid, ...joiningMarks(layout, laid)];
  return layout.tiles.map((tile): Picture => ({
    ...layout.page,
    items: [...drawn(layout, tile, all), ...cardFoot(told, layout, tile)],
  }));
}

/** Joining marks reach as far as this from their middle, mm. */
const MARK_MM = 4;

/**
 * Joining marks lie in the middle of every overlap, two for each page along it, where both pages are
 * there: triangles with a letter each, which no hole and no fold looks like. They lie a quarter from its ends, or as near to that as keeps them off texts. Where a text
 * fills half of an overlap from end to end, two marks that lie far apart count for more.
 */
function joiningMarks(layout: CardLayout, blank: readonly PictureItem[]): PictureItem[] {
  const placer = new Placer(NO_BOUNDS, { across: 0, crossing: 0 });
  placer.take(...blank.flatMap((item) => (item.kind === 'label' ? [textGround(item)] : [])));
  const marked = (from: Vec2, to: Vec2): Vec2[] =>
    MARK_SHARES.map((shares) => {
      const places = shares.map((share) => {
        const at = along(from, sub(to, from), share);
        return { at, grounds: [discGround(at, MARK_MM)] };
      });
      return (placer.place(places) ?? (places[0] as { readonly at: Vec2 })).at;
    });
  const places = layout.tiles.flatMap(({ column, row, shows: { minX, minY, maxX, maxY } }) => {
    const [x, y] = [maxX - OVERLAP_MM / 2, minY + OVERLAP_MM / 2];
    const right = tileAt(layout, column + 1, row) === undefined ? [] : marked([x, minY], [x, maxY]);
    const below = tileAt(layout, column, row + 1) === undefined ? [] : marked([minX, y], [maxX, y]);
    return [...right, ...below];
  });
  return places.flatMap((at, i) => joiningMark(at, letters(i)));
}

const MARK_SHARES = [
  [0.25, 0.2, 0.3, 0.15, 0.35, 0.1, 0.4, 0.05, 0.45],
  [0.75, 0.8, 0.7, 0.85, 0.65, 0.9, 0.6, 0.95, 0.55],
] as const;

/** The corners of a joining mark, and the size of its letter, mm. */
const TRIANGLE_MM: readonly Vec2[] = [
  [-3.6, -2.4],
  [3.6, -2.4],
  [0, 3.8],
];
const LETTER_MM = 2.6;

const joiningMark = ([x, y]: Vec2, text: string): PictureItem[] => [
  {
    kind: 'curve',
    pieces: ring(TRIANGLE_MM.map(([dx, dy]): Vec2 => [x + dx, y + dy])),
    stroke: NARROW,
  },
  { kind: 'label', at: [x, y - 1.7], sizeMm: LETTER_MM, align: 'middle', text },
];

/** The part of the blank that a page shows, in its frame. */
function drawn(layout: CardLayout, tile: Tile, lines: readonly PictureItem[]): PictureItem[] {
  const {
    live: [x, y],
  } = layout;
  const { minX, minY, maxX, maxY } = tile.shows;
  const live: Extents = { minX: x, minY: y, maxX: x + maxX - minX, maxY: y + maxY - minY };
  return [
    { kind: 'group', at: [x - minX, y - minY], clip: tile.shows, items: lines },
    { kind: 'curve', pieces: boxRing(live), stroke: FRAME },
    ...checkLines([x, y]),
    ...neighbours(layout, tile, live),
  ];
}

/** From the lower left corner of the frame along two of its sides, their ends ticked. */
function checkLines([x, y]: Vec2): PictureItem[] {
  const [right, top] = [x + CHECK_MM, y + CHECK_MM];
  return [
    line([x, y], [right, y], CHECK),
    line([x, y], [x, top], CHECK),
    line([right, y - 2], [right, y + 2], CHECK),
    line([x - 2, top], [x + 2, top], CHECK),
    { kind: 'label', at: [right - 1, y - 3], sizeMm: 3, align: 'right', text: '100 mm' },
    {
      kind: 'label',
      at: [x - 1.2, top - 1],
      sizeMm: 3,
      align: 'right',
      angleDeg: 90,
      text: '100 mm',
    },
  ];
}

/**
 * What page lies on each side, in the margins; on the left and below beside the check lines' first
 * half.
 */
function neighbours(
  layout: CardLayout,
  { column, row }: Tile,
  { minX, minY, maxX, maxY }: Extents,
): PictureItem[] {
  const sides: readonly (readonly [right: number, down: number, at: Vec2, angleDeg: number])[] = [
    [-1, 0, [minX - 1.2, minY + CHECK_MM / 2], 90],
    [1, 0, [maxX + 3.2, (minY + maxY) / 2], 90],
    [0, -1, [(minX + maxX) / 2, maxY + 1.2], 0],
    [0, 1, [minX + CHECK_MM / 2, minY - 3], 0],
  ];
  return sides.flatMap(([right, down, at, angleDeg]): PictureItem[] => {
    const other = tileAt(layout, column + right, row + down);
    return other === undefined
      ? []
      : [
          {
            kind: 'label',
            at,
            sizeMm: 3,
            align: 'middle',
            angleDeg,
            text: `joins ${tileName(other)}`,
          },
        ];
  });
}
