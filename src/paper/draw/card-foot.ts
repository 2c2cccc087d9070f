import { piecesOf } from '../../geometry/piece.ts';
import type { Loop } from '../../geometry/loop.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { PaperMark } from '../../model/paper-mark.ts';
import type { PictureItem, Stroke } from '../../model/picture.ts';
import { type CardLayout, MARGIN_MM, type Tile } from './card-layout.ts';
import { LEAST_LINE_MM } from './line-types.ts';
import { codeItems } from './square-code.ts';
import { quarterTurned } from './quarter-turn.ts';
import { boxRing } from './strokes.ts';
import { fittedSizeMm, textWidthMm } from './text-width.ts';

const FRAME: Stroke = { widthMm: LEAST_LINE_MM, shade: 0.5 };
/** Largest size of the overview. */
const MAP_MM = { width: 26, height: 15 };
/** Side of the square code, in the corner on the left. */
const CODE_MM = 18;
const TITLE_MM = 5;
const PLACE_MM = 5;
const TEXT_MM = 3;
/** Between texts, and between texts and the overview. */
const GAP_MM = 3;

const PRINT =
  'Print at 100 % (actual size), not fitted to the page: both check lines must measure 100 mm, within 0.5 mm.';
/** What the foot of a page tells. */
export interface FootOf {
  readonly paperMark: PaperMark;
  readonly title: string;
  readonly about: string;
  /** A line; empty where there is nothing to beware of. */
  readonly cautions: string;
  /** Which side is up, and what its lines mean. */
  readonly side: string;
  readonly outlines: readonly Loop[];
  readonly widthMm: number;
}

/**
 * Below the drawing: what the page is of, how it is printed and folded, and where it belongs among
 * the others.
 */
export function cardFoot(told: FootOf, layout: CardLayout, tile: Tile): PictureItem[] {
  const {
    page: { widthMm },
    columns,
    rows,
  } = layout;
  const left = MARGIN_MM + CODE_MM + GAP_MM;
  const isAlone = columns * rows === 1;
  const map = isAlone ? { left: widthMm - MARGIN_MM, items: [] } : overview(told, layout, tile);
  const right = isAlone ? map.left : map.left - GAP_MM;
  const place = isAlone
    ? ''
    : `row ${tile.row + 1} of ${rows}, sheet ${tile.column + 1} of ${columns}`;
  const placeWidth = isAlone ? 0 : textWidthMm(place, PLACE_MM, true) + GAP_MM;
  const fitted = (text: string, sizeMm: number, isBold: boolean, roomMm: number): number =>
    fittedSizeMm(text, sizeMm, roomMm, isBold);
  const small = (text: string, above: number, isBold = false): PictureItem => ({
    kind: 'label',
    at: [left, MARGIN_MM + above],
    sizeMm: fitted(text, TEXT_MM, isBold, right - left),
    text,
    isBold,
  });
  const high = MARGIN_MM + 13;
  return [
    {
      kind: 'label',
      at: [left, high],
      sizeMm: fitted(told.title, TITLE_MM, true, right - placeWidth - left),
      isBold: true,
      text: told.title,
    },
    ...(isAlone
      ? []
      : [
          {
            kind: 'label',
            at: [right, high],
            sizeMm: PLACE_MM,
            align: 'right',
            isBold: true,
            text: place,
          } as const,
        ]),
    small(told.about, 9.7),
    ...(told.cautions === '' ? [] : [small(told.cautions, 6.5, true)]),
    small(PRINT, 3.3),
    small(told.side, 0.1),
    ...codeItems(told.paperMark, CODE_MM, [MARGIN_MM, MARGIN_MM]),
    ...map.items,
  ];
}

/** In the lower right corner: all pages in small with the blank across them, this one grey. */
function overview(
  { outlines, widthMm }: FootOf,
  { page, tiles, isTurned }: CardLayout,
  tile: Tile,
): { readonly left: number; readonly items: readonly PictureItem[] } {
  const [minX, minY] = [
    Math.min(...tiles.map((t) => t.shows.minX)),
    Math.min(...tiles.map((t) => t.shows.minY)),
  ];
  const [maxX, maxY] = [
    Math.max(...tiles.map((t) => t.shows.maxX)),
    Math.max(...tiles.map((t) => t.shows.maxY)),
  ];
  const scale = Math.min(MAP_MM.width / (maxX - minX), MAP_MM.height / (maxY - minY));
  const left = page.widthMm - MARGIN_MM - (maxX - minX) * scale;
  const at = ([x, y]: Vec2): Vec2 => [left + (x - minX) * scale, MARGIN_MM + (y - minY) * scale];
  const box = ({ shows: s }: Tile, fill?: number): PictureItem => {
    const [low, high] = [at([s.minX, s.minY]), at([s.maxX, s.maxY])];
    return {
      kind: 'area',
      rims: [boxRing({ minX: low[0], minY: low[1], maxX: high[0], maxY: high[1] })],
      ...(fill !== undefined && { fill }),
      stroke: FRAME,
    };
  };
  const onCard = (p: Vec2): Vec2 => at(isTurned ? quarterTurned(p, widthMm) : p);
  const rims = outlines.map((outline) =>
    piecesOf(outline).map(({ from, to, bulge }) => ({ from: onCard(from), to: onCard(to), bulge })),
  );
  return {
    left,
    items: [
      box(tile, 0.8),
      ...tiles.map((t) => box(t)),
      { kind: 'area', rims, stroke: { widthMm: 0.25 } },
    ],
  };
}
