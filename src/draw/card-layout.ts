import type { Extents } from '../geometry/extents.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import { type PaperSize, SHEETS, type SheetOfPaper } from '../model/paper.ts';

/** No printer prints to the edge; 8 mm suit almost all (common practice). */
export const MARGIN_MM = 8;
/** Beside the drawing: the upright check line on the left, texts below. */
const LEFT_STRIP_MM = 6;
const FOOT_MM = 20;
/** What neighbouring pages both show. */
export const OVERLAP_MM = 10;
/** Paper that is left round the part at least, for the width of its lines. */
const ROOM_MM = 1;

/** One page: which it is, and the part of the blank that it shows, in the blank's coordinates. */
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
  /** In reading order: row by row from above. */
  readonly tiles: readonly Tile[];
}

/** How a blank of a size is laid out on paper: upright or across, whichever takes fewer pages. */
export function cardLayout(widthMm: number, heightMm: number, paper: PaperSize): CardLayout {
  if (typeof paper !== 'string') return tiled(widthMm, heightMm, rollPage(paper.rollMm, heightMm));
  const upright = SHEETS[paper];
  const across = { widthMm: upright.heightMm, heightMm: upright.widthMm };
  const [first, second] = [tiled(widthMm, heightMm, upright), tiled(widthMm, heightMm, across)];
  return second.tiles.length < first.tiles.length ? second : first;
}

/** As long as the blank needs. */
const rollPage = (rollMm: number, heightMm: number): SheetOfPaper => ({ widthMm: rollMm, heightMm: Math.max(heightMm + 2 * ROOM_MM, LEAST_LIVE_MM) + FOOT_MM + 2 * MARGIN_MM });

/** The check lines take 100 mm each way. */
const LEAST_LIVE_MM = 110;

function tiled(widthMm: number, heightMm: number, page: SheetOfPaper): CardLayout {
  const [liveWidth, liveHeight] = [page.widthMm - 2 * MARGIN_MM - LEFT_STRIP_MM, page.heightMm - 2 * MARGIN_MM - FOOT_MM];
  const across = spread(widthMm, liveWidth);
  const down = spread(heightMm, liveHeight);
  const tiles = Array.from({ length: across.count * down.count }, (_, i): Tile => {
    const [column, row] = [i % across.count, Math.floor(i / across.count)];
    const [minX, minY] = [across.start + column * across.pitch, down.start + (down.count - 1 - row) * down.pitch];
    return { column, row, shows: { minX, minY, maxX: minX + liveWidth, maxY: minY + liveHeight } };
  });
  return { page, live: [MARGIN_MM + LEFT_STRIP_MM, MARGIN_MM + FOOT_MM], columns: across.count, rows: down.count, tiles };
}

/** How many pages side by side show a length, and where the first begins; the part lies in their middle. */
const spread = (size: number, live: number): { readonly count: number; readonly pitch: number; readonly start: number } => {
  const pitch = live - OVERLAP_MM;
  const count = Math.max(1, Math.ceil((size + 2 * ROOM_MM - OVERLAP_MM) / pitch - 1e-9));
  return { count, pitch, start: (size - (count * pitch + OVERLAP_MM)) / 2 };
};

/** `B2`: columns have letters, rows numbers from above. */
export const tileName = ({ column, row }: Pick<Tile, 'column' | 'row'>): string => `${letters(column)}${row + 1}`;

/** A to Z, AA, AB ... */
const letters = (index: number): string => (index < 26 ? '' : letters(Math.floor(index / 26) - 1)) + String.fromCharCode(65 + (index % 26));
