import type { Extents } from '../../geometry/extents.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import { type PaperSize, SHEETS, type SheetOfPaper } from '../../model/paper.ts';
import { MM_PER_INCH } from '../../text/units.ts';
import { NOISE_MM2, wholeUp } from '../../geometry/tolerance.ts';

/** No printer prints to the edge; 8 mm suit almost all (common practice). */
export const MARGIN_MM = 8;
/** Beside the drawing: the upright check line on the left, texts below. */
const LEFT_STRIP_MM = 6;
const FOOT_MM = 20;
/** What neighbouring pages both show. */
export const OVERLAP_MM = 10;
/** Paper that is left round the part at least, for the width of its lines. */
const ROOM_MM = 1;
/** The check lines take 100 mm each way, and their ends some more. */
const LEAST_LIVE_MM = 110;
/** Readers of PDF take no page longer than 14400 points of 1/72 inch (ISO 32000-1, annex C.2). */
const LONGEST_PAGE_MM = (14400 / 72) * MM_PER_INCH;

/** One page: which it is, and what it shows of the blank as that lies on the card. */
export interface Tile {
  readonly column: number;
  /** From above. */
  readonly row: number;
  readonly shows: Extents;
}

export interface CardLayout {
  readonly page: SheetOfPaper;
  /** Lower left corner of the drawing on every page. */
  readonly live: Vec2;
  readonly columns: number;
  readonly rows: number;
  /**
   * The blank lies turned on the card, by a quarter clockwise: texts along upright folds lie level
   * then.
   */
  readonly isTurned: boolean;
  /** Those that show anything, in reading order: row by row from above. */
  readonly tiles: readonly Tile[];
}

/**
 * How a blank of a size is laid out on paper: sheets upright or across, the blank as it is drawn or
 * turned, whichever takes fewest pages; of a roll the least. `isShown` says whether a box, in the
 * blank's coordinates, has anything of it.
 */
export function cardLayout(
  widthMm: number,
  heightMm: number,
  paper: PaperSize,
  isShown: (box: Extents) => boolean = () => true,
): CardLayout {
  const layouts = [false, true].flatMap((isTurned) => {
    const size = isTurned ? { widthMm: heightMm, heightMm: widthMm } : { widthMm, heightMm };
    const isWanted = isTurned ? (box: Extents) => isShown(turnedBack(box, widthMm)) : isShown;
    return pagesFor(paper, size).map((page): CardLayout => ({
      ...tiled(size, page, isWanted),
      isTurned,
    }));
  });
  return layouts.reduce((best, other) => (takesLess(other, best) ? other : best));
}

const turnedBack = ({ minX, minY, maxX, maxY }: Extents, widthMm: number): Extents => ({
  minX: widthMm - maxY,
  maxX: widthMm - minY,
  minY: minX,
  maxY: maxX,
});

const takesLess = ({ tiles, page }: CardLayout, other: CardLayout): boolean =>
  tiles.length < other.tiles.length ||
  (tiles.length === other.tiles.length &&
    page.widthMm * page.heightMm < other.page.widthMm * other.page.heightMm - NOISE_MM2);

/** The pages that a paper can make, the likeliest first. */
const pagesFor = (paper: PaperSize, { widthMm, heightMm }: SheetOfPaper): SheetOfPaper[] => {
  if (typeof paper !== 'string') return [rollPage(paper.rollMm, heightMm)];
  if (paper === 'plotter') return [rollPage(wholePageMm(widthMm), heightMm)];
  const upright = SHEETS[paper];
  return [upright, { widthMm: upright.heightMm, heightMm: upright.widthMm }];
};

/** So wide that a blank lies on one page. */
const wholePageMm = (widthMm: number): number =>
  Math.min(
    Math.max(widthMm + 2 * ROOM_MM, LEAST_LIVE_MM) + LEFT_STRIP_MM + 2 * MARGIN_MM,
    LONGEST_PAGE_MM,
  );

/** As long as the blank needs. */
const rollPage = (rollMm: number, heightMm: number): SheetOfPaper => ({
  widthMm: rollMm,
  heightMm: Math.min(
    Math.max(heightMm + 2 * ROOM_MM, LEAST_LIVE_MM) + FOOT_MM + 2 * MARGIN_MM,
    LONGEST_PAGE_MM,
  ),
});

function tiled(
  { widthMm, heightMm }: SheetOfPaper,
  page: SheetOfPaper,
  isShown: (box: Extents) => boolean,
): Omit<CardLayout, 'isTurned'> {
  const [liveWidth, liveHeight] = [
    page.widthMm - 2 * MARGIN_MM - LEFT_STRIP_MM,
    page.heightMm - 2 * MARGIN_MM - FOOT_MM,
  ];
  const across = spread(widthMm, liveWidth);
  const down = spread(heightMm, liveHeight);
  const tiles = Array.from({ length: across.count * down.count }, (_, i): Tile => {
    const [column, row] = [i % across.count, Math.floor(i / across.count)];
    const [minX, minY] = [
      across.start + column * across.pitch,
      down.start + (down.count - 1 - row) * down.pitch,
    ];
    return { column, row, shows: { minX, minY, maxX: minX + liveWidth, maxY: minY + liveHeight } };
  });
  return {
    page,
    live: [MARGIN_MM + LEFT_STRIP_MM, MARGIN_MM + FOOT_MM],
    columns: across.count,
    rows: down.count,
    tiles: tiles.filter(({ shows }) => isShown(shows)),
  };
}

/**
 * How many pages side by side show a length, and where the first begins; the part lies in their
 * middle.
 */
const spread = (
  size: number,
  live: number,
): { readonly count: number; readonly pitch: number; readonly start: number } => {
  const pitch = live - OVERLAP_MM;
  const count = Math.max(1, wholeUp((size + 2 * ROOM_MM - OVERLAP_MM) / pitch));
  return { count, pitch, start: (size - (count * pitch + OVERLAP_MM)) / 2 };
};

/** The page beside or below one, where there is one. */
export const tileAt = ({ tiles }: CardLayout, column: number, row: number): Tile | undefined =>
  tiles.find((tile) => tile.column === column && tile.row === row);

/** `row 1 sheet 2`: rows from above, sheets from the left. */
export const tileName = ({ column, row }: Pick<Tile, 'column' | 'row'>): string =>
  `row ${row + 1} sheet ${column + 1}`;

/** A to Z, AA, AB ...: the letters of joining marks. */
export const letters = (index: number): string =>
  (index < 26 ? '' : letters(Math.floor(index / 26) - 1)) + String.fromCharCode(65 + (index % 26));
