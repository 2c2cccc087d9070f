import type { Vec2 } from '../../geometry/vec2.ts';
import type { PictureItem, Stroke } from '../../model/picture.ts';
import { LEAST_LINE_MM } from './line-types.ts';
import { line } from './strokes.ts';
import { fittedSizeMm, textWidthMm } from './text-width.ts';

export interface Column {
  readonly heading: string;
  readonly widthMm: number;
  readonly align?: 'left' | 'right';
}

const ROW_MM = 6.2;
export const TABLE_LETTERS_MM = 3.8;
const HEADING_MM = 3;
export const PAD_MM = 1.5;

const RULE: Stroke = { widthMm: 0.35 };
const THIN: Stroke = { widthMm: LEAST_LINE_MM };

export const tableHeightMm = (rows: number): number => (rows + 1) * ROW_MM;

/** How many rows a height has room for, the heading apart. */
export const rowsIn = (heightMm: number): number => Math.max(0, Math.floor(heightMm / ROW_MM) - 1);

/** Columns as wide as what they hold, words to the left and figures to the right. */
export const columnsFor = (
  columns: readonly { readonly name: string; readonly isText?: boolean }[],
  rows: readonly (readonly string[])[],
): Column[] =>
  columns.map(({ name, isText = false }, i) => ({
    heading: name,
    align: isText ? 'left' : 'right',
    widthMm:
      Math.max(
        textWidthMm(name, HEADING_MM),
        ...rows.map((row) => textWidthMm(row[i] ?? '', TABLE_LETTERS_MM)),
      ) +
      2 * PAD_MM +
      1,
  }));

/**
 * A table with its upper left corner at a point; what is too wide for its column is written
 * smaller. A loose one has no lines between its rows.
 */
export const table = (
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  [left, top]: Vec2,
  isLoose = false,
): PictureItem[] => {
  const wide = columns.reduce((sum, c) => sum + c.widthMm, 0);
  const cells = (texts: readonly string[], y: number, sizeMm: number): PictureItem[] => {
    let x = left;
    return columns.map(({ widthMm, align = 'left' }, i): PictureItem => {
      const text = texts[i] ?? '';
      const fitted = fittedSizeMm(text, sizeMm, widthMm - 2 * PAD_MM);
      const at: Vec2 = [align === 'right' ? x + widthMm - PAD_MM : x + PAD_MM, y + 1.8];
      x += widthMm;
      return { kind: 'label', at, sizeMm: fitted, text, align };
    });
  };
  return [
    line([left, top], [left + wide, top], RULE),
    ...cells(
      columns.map((c) => c.heading),
      top - ROW_MM,
      HEADING_MM,
    ),
    line([left, top - ROW_MM], [left + wide, top - ROW_MM], RULE),
    ...rows.flatMap((row, i) => {
      const y = top - (i + 2) * ROW_MM;
      return [
        ...cells(row, y, TABLE_LETTERS_MM),
        ...(i === rows.length - 1
          ? [line([left, y], [left + wide, y], RULE)]
          : isLoose
            ? []
            : [line([left, y], [left + wide, y], THIN)]),
      ];
    }),
  ];
};
