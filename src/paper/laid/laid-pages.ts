import type { Extents } from '../../geometry/extents.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import { type SheetName, SHEETS } from '../../model/paper.ts';
import type { Picture, PictureItem } from '../../model/picture.ts';
import { codeItems } from '../draw/square-code.ts';
import { type Column, columnsFor, rowsIn, table, tableHeightMm } from '../draw/table.ts';
import { wrapped } from '../draw/wrap.ts';
import { type Field, stripItems, TITLE_STRIP_MM } from '../sheet/title-strip.ts';
import type { LaidPicture } from './laid-picture.ts';
import { laidLines, laidTitle, partColumns, partRows } from './laid-words.ts';
import { type LaidView, laidView } from './laid-view.ts';

/** Rim of the paper; the side of the square code; between blocks, mm. */
const RIM_MM = 10;
const CODE_MM = 22;
const SPACE_MM = 5;
const TITLE_LETTERS_MM = 5;
const LETTERS_MM = 3.4;
const LINE_MM = 4.6;

/**
 * The pages of a laid sheet, on paper that lies: the sheet with its parts and sizes, and the table of
 * parts, beside it where it does not make the picture much smaller, else on pages of its own.
 */
export const laidPages = (picture: LaidPicture, paper: SheetName = 'a4'): Picture[] => {
  const { widthMm: heightMm, heightMm: widthMm } = SHEETS[paper];
  const frame = { minX: RIM_MM, minY: RIM_MM, maxX: widthMm - RIM_MM, maxY: heightMm - RIM_MM };
  const rows = partRows(picture);
  const columns = columnsFor(partColumns(picture.print), rows);
  const { view, isBeside, head } = firstPage(picture, frame, columns, rows);
  const body = { ...frame, minY: frame.minY + TITLE_STRIP_MM + SPACE_MM };
  const left = frame.maxX - widthOf(columns);
  const first = [
    ...head.items,
    ...view.items,
    ...(isBeside ? table(columns, rows, [left, head.bottom]) : []),
  ];
  const rest = isBeside ? [] : tablePages(columns, rows, body);
  const pages = [first, ...rest];
  return pages.map((items, i) => ({
    widthMm,
    heightMm,
    items: [
      ...items,
      {
        kind: 'group',
        at: [frame.minX, frame.minY],
        items: stripItems(
          stripFields(picture, view.scale, `${i + 1} of ${pages.length}`),
          frame.maxX - frame.minX,
        ),
      },
    ],
  }));
};

/** Beside a table the picture is at least this share as large as without. */
const BESIDE_SHARE = 0.6;

interface FirstPage {
  readonly view: LaidView;
  readonly isBeside: boolean;
  readonly head: Head;
}

const firstPage = (
  picture: LaidPicture,
  frame: Extents,
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
): FirstPage => {
  const head = headItems(picture, frame, true);
  const field = { ...frame, minY: frame.minY + TITLE_STRIP_MM + SPACE_MM, maxY: head.bottom };
  const alone = laidView(picture, field);
  const beside = { ...field, maxX: frame.maxX - widthOf(columns) - SPACE_MM };
  const isLow = tableHeightMm(rows.length) <= field.maxY - field.minY;
  const narrow = isLow ? laidView(picture, beside) : undefined;
  const isBeside =
    narrow !== undefined &&
    narrow.hasSizes === alone.hasSizes &&
    narrow.onPaper >= BESIDE_SHARE * alone.onPaper;
  const view = isBeside ? narrow : alone;
  return { view, isBeside, head: view.hasSizes ? head : headItems(picture, frame, false) };
};

interface Head {
  readonly items: readonly PictureItem[];
  /** What comes under it begins here. */
  readonly bottom: number;
}

const headItems = (picture: LaidPicture, frame: Extents, hasSizes: boolean): Head => {
  const wide = frame.maxX - frame.minX - CODE_MM - SPACE_MM;
  const titles = wrapped(laidTitle(picture), wide, TITLE_LETTERS_MM, true);
  const lines = laidLines(picture, hasSizes).flatMap((text) => wrapped(text, wide, LETTERS_MM));
  let y = frame.maxY;
  const label = (text: string, sizeMm: number, isBold: boolean): PictureItem => {
    y -= isBold ? 1.3 * sizeMm : LINE_MM;
    return { kind: 'label', at: [frame.minX, y], sizeMm, text, isBold };
  };
  const items = [
    ...titles.map((text) => label(text, TITLE_LETTERS_MM, true)),
    ...lines.map((text) => label(text, LETTERS_MM, false)),
    ...codeItems(picture.paperMark, CODE_MM, [frame.maxX - CODE_MM, frame.maxY - CODE_MM]),
  ];
  return { items, bottom: Math.min(y - SPACE_MM, frame.maxY - CODE_MM - SPACE_MM) };
};

const widthOf = (columns: readonly Column[]): number =>
  columns.reduce((sum, { widthMm }) => sum + widthMm, 0);

/** The table on as many pages as it needs, in columns beside each other where there is room. */
const tablePages = (
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  { minX, minY, maxX, maxY }: Extents,
): PictureItem[][] => {
  const most = Math.max(1, rowsIn(maxY - minY));
  const wide = widthOf(columns) + SPACE_MM;
  const across = Math.max(1, Math.floor((maxX - minX + SPACE_MM) / wide));
  const pages: PictureItem[][] = [];
  for (let i = 0; i * most < rows.length; i++) {
    const at: Vec2 = [minX + (i % across) * wide, maxY];
    if (i % across === 0) pages.push([]);
    pages.at(-1)?.push(...table(columns, rows.slice(i * most, (i + 1) * most), at));
  }
  return pages;
};

const stripFields = (
  { cuts, job, material, paperMark: { file, sha }, date }: LaidPicture,
  scale: string,
  page: string,
): Field[] => [
  { heading: 'Sheet', text: cuts.sheet.name, share: 34 },
  { heading: 'Job', text: job, share: 40 },
  { heading: 'Material and thickness', text: material, share: 40 },
  {
    heading: sha === undefined ? 'Cut file' : `Cut file, SHA-256 ${sha}`,
    text: file ?? '-',
    share: 46,
  },
  { heading: 'Scale', text: scale, share: 16 },
  { heading: 'Issued', text: date, share: 24 },
  { heading: 'Page', text: page, share: 18 },
];
