import { type Extents, loopExtents } from '../geometry/extents.ts';
import { type Loop, rectangle } from '../geometry/loop.ts';
import { SAME_LENGTH_MM } from '../geometry/tolerance.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { LaidPart, LaidSheet } from '../model/laid.ts';
import type { Rectangle } from '../model/sheets.ts';
import type { Shears } from '../model/stock.ts';
import { laidRegion, type PartOutlines } from './left.ts';

/**
 * Where a sheet is sheared so that its pieces lie on a bed: as large as the bed from the lower left
 * corner on, and what is left over as strips. Of the two ways to lay the bed the one with the larger
 * pieces, then with the fewer. `undefined` where the sheet lies on the bed as it is.
 */
export const shearsFor = (outline: Loop, bed: Rectangle): Shears | undefined => {
  const box = loopExtents(outline);
  if (box === undefined) return undefined;
  const [length, width] = [box.maxX - box.minX, box.maxY - box.minY];
  const ways = [
    [bed.length, bed.width],
    [bed.width, bed.length],
  ].map(([along = 0, across = 0]) => ({
    shears: { x: levels(length, along), y: levels(width, across) },
    areaMm2: Math.min(along, length) * Math.min(across, width),
  }));
  if (ways.some(({ shears }) => piecesBy(shears) === 1)) return undefined;
  const [one, other] = ways as [(typeof ways)[number], (typeof ways)[number]];
  if (Math.abs(one.areaMm2 - other.areaMm2) > SAME_LENGTH_MM)
    return one.areaMm2 > other.areaMm2 ? one.shears : other.shears;
  return piecesBy(other.shears) < piecesBy(one.shears) ? other.shears : one.shears;
};

const levels = (length: number, step: number): number[] => {
  const count = Math.ceil((length - SAME_LENGTH_MM) / step) - 1;
  return Array.from({ length: count }, (_, k) => (k + 1) * step);
};

const piecesBy = ({ x, y }: Shears): number => (x.length + 1) * (y.length + 1);

/**
 * The pieces that a sheet is sheared to, each as a sheet of its own with its lower left corner at
 * 0,0 and the parts that lie on it: row by row from below, called by letters. Of a sheet that is cut
 * as it is, that sheet alone.
 */
export const shearedPieces = (sheet: LaidSheet, outlines: PartOutlines): readonly LaidSheet[] => {
  const { stock, parts } = sheet;
  const box = loopExtents(stock.outline);
  if (stock.shears === undefined || box === undefined) return [sheet];
  const middles = new Map(parts.map((part) => [part, middleOf(part, outlines)]));
  return cellsOf(stock.shears, box).map((cell, n) =>
    pieceOf(
      sheet,
      cell,
      letters(n),
      parts.filter((part) => isIn(cell, middles.get(part) as Vec2)),
    ),
  );
};

/** The middle of the box round a part as it lies. */
const middleOf = (part: LaidPart, outlines: PartOutlines): Vec2 => {
  const shape = outlines.get(part.name);
  const box = shape && loopExtents(laidRegion(part, shape).outline);
  if (box === undefined) throw new Error(`no outline of ${part.name}`);
  return [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
};

/** A point on a line between two belongs to the later one. */
const isIn = ({ minX, minY, maxX, maxY }: Extents, [x, y]: Vec2): boolean =>
  x >= minX && x < maxX && y >= minY && y < maxY;

/** `a` to `z`, then `aa` and so on. */
const letters = (n: number): string =>
  (n < LETTERS ? '' : letters(Math.floor(n / LETTERS) - 1)) +
  String.fromCharCode(FIRST_LETTER + (n % LETTERS));

const LETTERS = 26;
const FIRST_LETTER = 'a'.charCodeAt(0);

const cellsOf = ({ x, y }: Shears, { minX, minY, maxX, maxY }: Extents): Extents[] => {
  const spans = (all: readonly number[]): (readonly [number, number])[] =>
    all.slice(1).map((to, k) => [all[k] as number, to]);
  const columns = spans([minX, ...x, maxX]);
  return spans([minY, ...y, maxY]).flatMap(([low, high]) =>
    columns.map(([left, right]) => ({ minX: left, maxX: right, minY: low, maxY: high })),
  );
};

const pieceOf = (
  sheet: LaidSheet,
  cell: Extents,
  letter: string,
  parts: readonly LaidPart[],
): LaidSheet => {
  const { stock } = sheet;
  const { shears: _, ...rest } = stock;
  const [xMm, yMm] = [cell.minX, cell.minY];
  return {
    ...sheet,
    name: `${sheet.name}-${letter}`,
    stock: { ...rest, outline: rectangle(0, 0, cell.maxX - xMm, cell.maxY - yMm) },
    shearedFrom: { stock, xMm, yMm },
    parts: parts.map((part) => ({ ...part, xMm: part.xMm - xMm, yMm: part.yMm - yMm })),
  };
};
