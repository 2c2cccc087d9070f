import { figure } from '../figures.ts';
import { withChords } from '../geometry/chords.ts';
import type { Extents } from '../geometry/extents.ts';
import { isInside } from '../geometry/inside.ts';
import { pieceOf } from '../geometry/piece.ts';
import { stretchInBox } from '../geometry/stretch-in-box.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { Drawing } from '../model/drawing.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { PaperSize } from '../model/paper.ts';
import type { Picture, PictureItem, Stroke } from '../model/picture.ts';
import { cardLayout, type CardLayout, MARGIN_MM, OVERLAP_MM, type Tile, tileName } from './card-layout.ts';
import { cardLines } from './card-lines.ts';
import { boxRing, line } from './strokes.ts';
import { textWidthMm } from './text-width.ts';

export interface Card {
  readonly flat: FlatPattern;
  /** Whose texts the card bears. */
  readonly drawing: Drawing;
  readonly name: string;
  readonly hand: 'left' | 'right';
  /** What else is to be known, a line: quantity, sheet, revision. */
  readonly about: string;
  readonly paper: PaperSize;
}

const FRAME: Stroke = { widthMm: 0.12, shade: 0.6 };
const CHECK: Stroke = { widthMm: 0.35 };
const MARK: Stroke = { widthMm: 0.18 };
const CHECK_MM = 100;

/**
 * The blank at true size on pages of paper, to be cut out of card, folded, and offered up. Pages overlap, with register
 * marks at the same place of the blank on both; each bears two sides of a 100 mm square, by which a printer that scales
 * is found out. Pages that show nothing of the blank are left out.
 */
export function cardPages(card: Card): Picture[] {
  const layout = cardLayout(card.flat.widthMm, card.flat.heightMm, card.paper);
  const lines = cardLines(card.flat, card.drawing);
  const rim = withChords(card.flat.outline, 0.05).map(({ x, y }): Vec2 => [x, y]);
  return layout.tiles.filter((tile) => shows(tile.shows, card.flat, rim)).map((tile) => pageOf(card, layout, tile, [...lines, ...registerMarks(layout)]));
}

/** Whether a page has metal on it. */
const shows = (box: Extents, flat: FlatPattern, rim: readonly Vec2[]): boolean =>
  rim.some((from, i) => stretchInBox(box, from, rim[(i + 1) % rim.length] as Vec2) !== undefined) || isInside(flat.outline, [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2]);

/** In the middle of every overlap, two for each page along it; in the blank's coordinates, like the blank itself. */
function registerMarks({ tiles, columns, rows }: CardLayout): PictureItem[] {
  return tiles.flatMap(({ column, row, shows: { minX, minY, maxX, maxY } }) => {
    const share = (low: number, high: number): number[] => [0.25, 0.75].map((s) => low + s * (high - low));
    const right = column < columns - 1 ? share(minY, maxY).map((y): Vec2 => [maxX - OVERLAP_MM / 2, y]) : [];
    const below = row < rows - 1 ? share(minX, maxX).map((x): Vec2 => [x, minY + OVERLAP_MM / 2]) : [];
    return [...right, ...below].flatMap(registerMark);
  });
}

const registerMark = ([x, y]: Vec2): PictureItem[] => [
  { kind: 'round', centre: [x, y], radiusMm: 2, stroke: MARK },
  line([x - 4, y], [x + 4, y], MARK),
  line([x, y - 4], [x, y + 4], MARK),
];

function pageOf(card: Card, layout: CardLayout, tile: Tile, lines: readonly PictureItem[]): Picture {
  const { page: { widthMm, heightMm }, live: [x, y] } = layout;
  const { shows: { minX, minY, maxX, maxY } } = tile;
  const [right, top] = [x + maxX - minX, y + maxY - minY];
  const frame: PictureItem = { kind: 'curve', pieces: boxRing({ minX: x, minY: y, maxX: right, maxY: top }), stroke: FRAME };
  return {
    widthMm,
    heightMm,
    items: [
      { kind: 'group', at: [x - minX, y - minY], clip: tile.shows, items: lines },
      frame,
      ...checkSquare([x, y]),
      ...neighbours(layout, tile, { minX: x, minY: y, maxX: right, maxY: top }),
      ...foot(card, layout, tile),
    ],
  };
}

/** Two sides drawn out, their ends ticked, and a corner opposite. */
function checkSquare([x, y]: Vec2): PictureItem[] {
  const [right, top] = [x + CHECK_MM, y + CHECK_MM];
  return [
    line([x, y], [right, y], CHECK),
    line([x, y], [x, top], CHECK),
    line([right, y - 2], [right, y + 2], CHECK),
    line([x - 2, top], [x + 2, top], CHECK),
    line([right - 3, top], [right, top], MARK),
    line([right, top - 3], [right, top], MARK),
    { kind: 'label', at: [right + 1, y - 3], sizeMm: 3, text: '100 mm' },
    { kind: 'label', at: [x - 1.2, top + 1], sizeMm: 3, angleDeg: 90, text: '100 mm' },
  ];
}

/** What page lies on each side, in the margins. */
function neighbours({ columns, rows }: CardLayout, { column, row }: Tile, { minX, minY, maxX, maxY }: Extents): PictureItem[] {
  const name = (right: number, down: number): string => `joins ${tileName({ column: column + right, row: row + down })}`;
  const label = (at: Vec2, angleDeg: number, text: string): PictureItem => ({ kind: 'label', at, sizeMm: 3, align: 'middle', angleDeg, text });
  const [middleX, middleY] = [(minX + maxX) / 2, (minY + maxY) / 2];
  return [
    ...(column > 0 ? [label([minX - 1.2, middleY + 20], 90, name(-1, 0))] : []),
    ...(column < columns - 1 ? [label([maxX + 3.2, middleY], 90, name(1, 0))] : []),
    ...(row > 0 ? [label([middleX, maxY + 1.2], 0, name(0, -1))] : []),
    ...(row < rows - 1 ? [label([middleX + 30, minY - 3], 0, name(0, 1))] : []),
  ];
}

const PRINT = "Print at 100 % (actual size), not fitted to the page: both check lines must measure 100 mm, within 0.5 mm.";
const SIDE = 'Printed side up: UP folds come towards you, DOWN folds (with dots) go away from you. Score the fold lines.';

/** Who the page is of, how it is printed, and where it belongs. */
function foot({ flat, name, hand, about }: Card, layout: CardLayout, tile: Tile): PictureItem[] {
  const { page: { widthMm }, live: [x], columns, rows } = layout;
  const map = overview(flat, layout, tile, [widthMm - MARGIN_MM, MARGIN_MM]);
  const place = columns * rows === 1 ? '' : `${tileName(tile)} of ${tileName({ column: columns - 1, row: rows - 1 })}`;
  const title = `${name}   ${hand.toUpperCase()} HAND`;
  const room = widthMm - MARGIN_MM - x - (place === '' ? 0 : textWidthMm(place, 6, true) + 24);
  const fitted = (text: string, sizeMm: number, isBold: boolean, wide: number): number => Math.min(sizeMm, (sizeMm * wide) / textWidthMm(text, sizeMm, isBold));
  const small = (text: string, y: number): PictureItem => ({ kind: 'label', at: [x, y], sizeMm: fitted(text, 3.2, false, map.left - x - 3), text });
  return [
    { kind: 'label', at: [x, MARGIN_MM + 12.2], sizeMm: fitted(title, 5, true, Math.min(room, map.left - x - 3)), isBold: true, text: title },
    small(about, MARGIN_MM + 8),
    small(PRINT, MARGIN_MM + 4),
    small(SIDE, MARGIN_MM),
    ...(place === '' ? [] : [{ kind: 'label', at: [map.left - 3, MARGIN_MM + 12.2], sizeMm: 6, align: 'right', isBold: true, text: place } as const]),
    ...map.items,
  ];
}

const MAP_MM = { width: 26, height: 15 };

/** All pages in small with the blank across them, this one grey; nothing where there is one only. */
function overview({ outline }: FlatPattern, { tiles, columns, rows }: CardLayout, tile: Tile, [right, bottom]: Vec2): { readonly left: number; readonly items: readonly PictureItem[] } {
  if (columns * rows === 1) return { left: right, items: [] };
  const minX = Math.min(...tiles.map((t) => t.shows.minX));
  const minY = Math.min(...tiles.map((t) => t.shows.minY));
  const maxX = Math.max(...tiles.map((t) => t.shows.maxX));
  const maxY = Math.max(...tiles.map((t) => t.shows.maxY));
  const scale = Math.min(MAP_MM.width / (maxX - minX), MAP_MM.height / (maxY - minY));
  const left = right - (maxX - minX) * scale;
  const at = ([x, y]: Vec2): Vec2 => [left + (x - minX) * scale, bottom + (y - minY) * scale];
  const box = ({ shows: s }: Tile, fill: number | undefined): PictureItem => {
    const [low, high] = [at([s.minX, s.minY]), at([s.maxX, s.maxY])];
    return { kind: 'area', rims: [boxRing({ minX: low[0], minY: low[1], maxX: high[0], maxY: high[1] })], ...(fill !== undefined && { fill }), stroke: FRAME };
  };
  const blank = outline.map((_, i) => pieceOf(outline, i)).map(({ from, to, bulge }) => ({ from: at(from), to: at(to), bulge }));
  return { left, items: [box(tile, 0.8), ...tiles.map((t) => box(t, undefined)), { kind: 'area', rims: [blank], stroke: { widthMm: 0.25 } }] };
}

/** The line of a card that says what it is of. */
export const cardAbout = (made: { readonly quantity: number; readonly sheet: string; readonly flat: FlatPattern; readonly revision?: string; readonly note?: string }): string =>
  [`${made.quantity} off`, made.sheet, `blank ${figure(made.flat.widthMm, 1)} x ${figure(made.flat.heightMm, 1)} mm`, ...(made.revision === undefined ? [] : [`revision ${made.revision}`]), ...(made.note === undefined ? [] : [made.note])].join(', ');
