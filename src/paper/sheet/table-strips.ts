import { boxRing, line } from '../draw/strokes.ts';
import { textWidthMm } from '../draw/text-width.ts';
import type { Label, PictureItem } from '../../model/picture.ts';
import { BOX_MM, type Column, GUTTER_MM, type TableBlock, TYPE_MM } from './content.ts';
import {
  beside,
  captionStrips,
  lineMm,
  linesFrom,
  type Section,
  type Strip,
  titleStrip,
} from './strips.ts';
import { wrapped } from '../draw/wrap.ts';

const PAD_MM = 1.1;
/** Of the width, what a column takes beyond what it holds. */
const MOST_SPARE = 0.042;
const ROW_RIM_MM = 0.5;
/** No column gets narrower by wrapping its words. */
const NARROWEST_MM = 14;
/** Less than this is left of a width by rounding. */
const NOTHING_MM = 1e-9;

/** A table in strips `wide` mm wide, one a row; its head is repeated on every page. */
export const tableSection = (
  { title, columns, rows, across = 1, captions = [], isClose = false }: TableBlock,
  wide: number,
): Section => {
  const widthMm = across === 1 ? wide : (wide - GUTTER_MM) / 2;
  const widths = columnWidths(columns, rows, widthMm, isClose);
  const head = rowStrip(
    columns,
    columns.map((c) => c.name),
    widths,
    { isHead: true, isClose },
  );
  const cells = rows.map((row) => rowStrip(columns, row, widths, { isHead: false, isClose }));
  const right = widthMm + GUTTER_MM;
  if (across === 1)
    return {
      head: [titleStrip(title, wide), ...(rows.length === 0 ? [] : [head])],
      body: [...cells, ...captionStrips(captions, wide)],
    };
  const half = Math.ceil(cells.length / 2);
  const pairs = cells.slice(0, half).map((left, i): Strip => {
    const other = cells[half + i];
    return beside(
      { x: 0, strip: left },
      ...(other === undefined ? [] : [{ x: right, strip: other }]),
    );
  });
  return {
    head: [titleStrip(title, wide), beside({ x: 0, strip: head }, { x: right, strip: head })],
    body: [...pairs, ...captionStrips(captions, wide)],
  };
};

interface RowKind {
  readonly isHead: boolean;
  readonly isClose: boolean;
}

const sizeOf = (
  { isBig = false }: Column,
  { isHead, isClose }: RowKind,
): { readonly sizeMm: number; readonly isBold: boolean } =>
  isHead
    ? { sizeMm: TYPE_MM.small, isBold: true }
    : { sizeMm: isBig ? TYPE_MM.big : isClose ? TYPE_MM.small : TYPE_MM.text, isBold: isBig };

const rowStrip = (
  columns: readonly Column[],
  texts: readonly string[],
  widths: readonly number[],
  kind: RowKind,
): Strip => {
  const rimMm = kind.isClose ? ROW_RIM_MM / 3 : ROW_RIM_MM;
  const cells = columns.map((column, i) => {
    const style = sizeOf(column, kind);
    return {
      column,
      style,
      lines: wrapped(
        texts[i] ?? '',
        (widths[i] as number) - 2 * PAD_MM,
        style.sizeMm,
        style.isBold,
      ),
    };
  });
  const heightMm =
    Math.max(...cells.map(({ lines, style }) => lines.length * lineMm(style.sizeMm))) + 2 * rimMm;
  const total = widths.reduce((sum, w) => sum + w, 0);
  let x = 0;
  const labels = cells.flatMap(({ column, style, lines }, i): Label[] => {
    const [left, widthMm] = [x + PAD_MM, (widths[i] as number) - 2 * PAD_MM];
    x += widths[i] as number;
    // Figures of both sizes stand in the middle of the row, heads at its foot.
    const tall = lines.length * lineMm(style.sizeMm);
    const top = kind.isHead ? tall + rimMm : (heightMm + tall) / 2;
    return linesFrom(lines, top, {
      ...style,
      x: left,
      widthMm,
      align: column.isText === true || column.isBox === true ? 'left' : 'right',
    });
  });
  return {
    heightMm,
    items: [
      ...labels,
      ...(kind.isHead ? [] : boxes(columns, widths, heightMm)),
      line([0, 0], [total, 0], { widthMm: kind.isHead ? 0.35 : 0.18 }),
    ],
  };
};

/** The boxes to tick of a row. */
const boxes = (
  columns: readonly Column[],
  widths: readonly number[],
  heightMm: number,
): PictureItem[] =>
  columns.flatMap(({ isBox = false }, i): PictureItem[] => {
    if (!isBox) return [];
    const minX = widths.slice(0, i).reduce((sum, w) => sum + w, 0) + PAD_MM;
    const minY = (heightMm - BOX_MM.side) / 2;
    return [
      {
        kind: 'area',
        rims: [boxRing({ minX, minY, maxX: minX + BOX_MM.side, maxY: minY + BOX_MM.side })],
        stroke: { widthMm: 0.25 },
      },
    ];
  });

/**
 * As wide as what they hold; where that is too wide, words are wrapped in the widest columns; what
 * room is left is shared out.
 */
const columnWidths = (
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  widthMm: number,
  isClose: boolean,
): number[] => {
  const widest = (i: number): number => {
    const column = columns[i] as Column;
    if (column.isBox === true) return BOX_MM.column;
    const { sizeMm, isBold } = sizeOf(column, { isHead: false, isClose });
    // Heads may be wrapped at their spaces.
    const head = Math.max(
      ...column.name.split(' ').map((word) => textWidthMm(word, TYPE_MM.small, true)),
    );
    return (
      Math.max(head, ...rows.map((row) => textWidthMm(row[i] ?? '', sizeMm, isBold))) +
      2 * PAD_MM +
      0.1
    );
  };
  const widths = columns.map((_, i) => widest(i));
  const total = widths.reduce((sum, w) => sum + w, 0);
  if (total > widthMm) return narrowed(columns, widths, total - widthMm);
  const share = Math.min(MOST_SPARE * widthMm, (widthMm - total) / columns.length);
  return widths.map((w) => w + share);
};

/**
 * Takes what is too much off columns of words, the widest first; off all alike where there are none
 * or they cannot give it.
 */
const narrowed = (
  columns: readonly Column[],
  widths: readonly number[],
  tooMuch: number,
): number[] => {
  const result = [...widths];
  let rest = tooMuch;
  while (rest > NOTHING_MM) {
    const texts = result
      .map((w, i) => ({ w, i }))
      .filter(({ w, i }) => columns[i]?.isText === true && w > NARROWEST_MM)
      .toSorted((a, b) => b.w - a.w);
    const [first, second] = texts;
    if (first === undefined) break;
    const next = Math.max(
      NARROWEST_MM,
      second !== undefined && second.w < first.w - NOTHING_MM ? second.w : first.w - rest,
    );
    const step = Math.min(rest, Math.max(0.1, first.w - next));
    result[first.i] = first.w - step;
    rest -= step;
  }
  if (rest <= NOTHING_MM) return result;
  const total = result.reduce((sum, w) => sum + w, 0);
  return result.map((w) => (w * (total - rest)) / total);
};
