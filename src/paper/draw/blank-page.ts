import type { Printed } from '../../text/printed.ts';
import { figure } from '../../text/figures.ts';
import { includedDeg } from '../../text/angles.ts';
import type { Extents } from '../../geometry/extents.ts';
import type { FlatBend, FlatPattern } from '../../model/flat.ts';
import type { PictureItem } from '../../model/picture.ts';
import type { Datum } from '../sizes/datum.ts';
import { datumText } from '../sizes/datum-text.ts';
import { sizesText, type SizeTable, sizeTables } from '../sizes/size-tables.ts';
import { dimensionedBlank } from './dimensioned-blank.ts';
import type { DrawingHead } from './drawing-head.ts';
import { ANGLE_KEY, CHAIN_KEY, FOLD_KEY } from './line-types.ts';
import { SCALES } from './scales.ts';
import {
  type Column,
  columnsFor,
  PAD_MM,
  rowsIn,
  table,
  TABLE_LETTERS_MM,
  tableHeightMm,
} from './table.ts';
import { textWidthMm } from './text-width.ts';
import { TITLE_MM } from './title-block.ts';
import { wrapped } from './wrap.ts';

/**
 * A length or an angle of the finished part in words; `plusMinus` is what it may be off, empty
 * where nothing is laid down.
 */
export interface ListedMeasure {
  readonly name: string;
  readonly text: string;
  readonly plusMinus: string;
}

export interface BlankDrawing {
  /** Sizes of the blank in chains; from the datum when left out. */
  readonly isChain?: boolean | undefined;
  readonly head: DrawingHead;
  readonly flat: FlatPattern;
  /** What the sizes of the blank are measured from. */
  readonly datum: Datum;
  readonly measures: readonly ListedMeasure[];
}

export interface BlankPage {
  readonly items: readonly PictureItem[];
  readonly scale: string;
}

const BENDS = [
  { heading: 'Bend', widthMm: 14 },
  { heading: 'Way', widthMm: 18 },
  { heading: 'Turned by', widthMm: 24, align: 'right' },
  { heading: 'Faces at', widthMm: 24, align: 'right' },
  { heading: 'Inside R', widthMm: 22, align: 'right' },
] as const;

const measuresColumns = ({ word }: Printed) => [
  { name: 'To be measured on the finished part', isText: true },
  { name: `${word} or degrees` },
  { name: 'may be off' },
];

const SPACE_MM = 8;
/** The widest table. */
const TABLES_MM = 176;
/** Letters of the notes, and from one of their lines to the next, mm. */
const NOTE_MM = { size: 3.8, step: 5.4, title: 5 } as const;

/** A table as it is put on pages. */
interface LaidTable {
  readonly title?: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly string[])[];
  readonly isLoose?: boolean;
}

/**
 * Pages with the blank and its sizes, the table of bends, what of the blank stands in tables, and the
 * measures; as many as the tables need. Where the paper is wide enough they begin beside the blank.
 */
export const blankPages = (drawing: BlankDrawing, frame: Extents): BlankPage[] => {
  const isWide = frame.maxX - frame.minX > 2 * TABLES_MM;
  const right = isWide ? frame.maxX - TABLES_MM - 3 * SPACE_MM : frame.maxX;
  const left = isWide ? frame.maxX - TABLES_MM - SPACE_MM : frame.minX + SPACE_MM;
  const bottom = frame.minY + TITLE_MM.height + SPACE_MM;
  const blank = blankItems(drawing, {
    ...frame,
    minY: isWide ? frame.minY : bottom,
    maxX: right,
  });
  const measures = drawing.measures.map((m) => [m.name, m.text, m.plusMinus]);
  const tables: LaidTable[] = [
    ...(drawing.flat.bends.length === 0
      ? []
      : [
          {
            columns: BENDS,
            rows: drawing.flat.bends.map((bend) => bendRow(bend, drawing.head.print)),
          },
        ]),
    ...blank.tables.map(({ title, columns, rows }) => ({
      title,
      columns: columnsFor(columns, rows),
      rows,
    })),
    { columns: columnsFor(measuresColumns(drawing.head.print), measures), rows: measures },
    ...cautionTables(drawing.head),
  ];
  return tablePages(tables, blank.items, {
    left,
    isBeside: isWide,
    top: frame.maxY - SPACE_MM,
    bottom,
    nextLeft: frame.minX + SPACE_MM,
    right: frame.maxX - SPACE_MM,
  }).map((items) => ({ items, scale: blank.scale }));
};

/** So wide are the cautions that they stand beside most tables. */
const CAUTIONS_MM = 130;
const INDENT_MM = 4;

/** Every caution in full, a line of its text a row. */
const cautionTables = ({ cautions }: DrawingHead): LaidTable[] => {
  const rows = cautions.flatMap(({ text }) =>
    wrapped(text, CAUTIONS_MM - INDENT_MM - 2 * PAD_MM, TABLE_LETTERS_MM).map((line, i) => [
      i === 0 ? '-' : '',
      line,
    ]),
  );
  const columns = [
    { heading: '', widthMm: INDENT_MM },
    { heading: '', widthMm: CAUTIONS_MM - INDENT_MM },
  ];
  return rows.length === 0 ? [] : [{ title: 'CAUTION', columns, rows, isLoose: true }];
};

interface TableRoom {
  readonly left: number;
  /** They begin beside the blank, and not on a page of their own. */
  readonly isBeside: boolean;
  readonly top: number;
  readonly bottom: number;
  readonly nextLeft: number;
  readonly right: number;
}

const tablePages = (
  tables: readonly LaidTable[],
  first: readonly PictureItem[],
  { left: start, isBeside, top, bottom, nextLeft, right }: TableRoom,
): PictureItem[][] => {
  const pages: PictureItem[][] = [[...first]];
  let [y, left, widest] = [isBeside ? top : bottom, start, 0];
  for (const { title, columns, rows, isLoose } of tables)
    for (let rest = rows; rest.length > 0;) {
      const head = title === undefined ? 0 : SPACE_MM;
      const room = rowsIn(y - head - bottom);
      const wide = widthOf({ title, columns });
      // A page of its own has room for what is wider than the place beside something else.
      const isTooWide = left > nextLeft && left + wide > right + SPACE_MM / 2;
      if (isTooWide || room < Math.min(3, rest.length)) {
        // Beside what stands on this page, or on the next.
        const beside = left + widest + SPACE_MM;
        const isOnNext = pages.length === 1 || isTooWide || beside + wide > right;
        [y, left, widest] = [top, isOnNext ? nextLeft : beside, 0];
        if (isOnNext) pages.push([]);
        continue;
      }
      const now = rest.slice(0, room);
      if (title !== undefined)
        pages.at(-1)?.push({
          kind: 'label',
          at: [left, y - 4.5],
          sizeMm: NOTE_MM.size,
          isBold: true,
          text: title,
        });
      widest = Math.max(widest, wide);
      pages.at(-1)?.push(...table(columns, now, [left, y - head], isLoose));
      y -= head + tableHeightMm(now.length) + SPACE_MM;
      rest = rest.slice(room);
    }
  return pages;
};

const widthOf = ({
  title = '',
  columns,
}: Pick<LaidTable, 'columns'> & { readonly title?: string | undefined }): number =>
  Math.max(
    textWidthMm(title, NOTE_MM.size, true),
    columns.reduce((sum, c) => sum + c.widthMm, 0),
  );

const bendRow = (
  { id, direction, angleDeg, insideRadiusMm }: FlatBend,
  { machine }: Printed,
): string[] => [
  id,
  direction.toUpperCase(),
  `${figure(angleDeg)}°`,
  `${figure(includedDeg(angleDeg))}°`,
  machine(insideRadiusMm),
];

/** A blank is not drawn larger than this: its page is for its figures. */
const LARGEST_SCALE = 2;

/** The blank with its sizes in a field, what they mean under it, and what of them stands in tables. */
const blankItems = (
  { head, flat, datum, isChain = false }: BlankDrawing,
  room: Extents,
): BlankPage & { readonly tables: readonly SizeTable[] } => {
  const { print } = head;
  const widthMm = room.maxX - room.minX - 2 * SPACE_MM;
  const lines = [
    `${sizesText(print)} The blank as its upper face is seen.`,
    datumText(datum),
    ...(isChain ? [CHAIN_KEY] : []),
    ...(flat.bends.length === 0 ? [] : [FOLD_KEY, ANGLE_KEY]),
  ].flatMap((text) => wrapped(text, widthMm, NOTE_MM.size));
  const notes = (lines.length + 1) * NOTE_MM.step + SPACE_MM;
  const field = { widthMm, heightMm: room.maxY - room.minY - notes - 2 * SPACE_MM };
  const known = SCALES.filter(({ scale }) => scale <= LARGEST_SCALE);
  const { picture, scale, sizes } = dimensionedBlank(flat, datum, field, [], {
    scales: known.map((s) => s.scale),
    isChain,
    print,
  });
  const bottom = room.minY + notes + SPACE_MM;
  const label = (text: string, i: number): PictureItem => ({
    kind: 'label',
    at: [room.minX + SPACE_MM, room.minY + notes - SPACE_MM / 2 - (i + 1) * NOTE_MM.step],
    sizeMm: NOTE_MM.size,
    text,
  });
  return {
    scale: known.find((s) => s.scale === scale)?.text ?? 'not to scale',
    tables: sizeTables(sizes),
    items: [
      {
        kind: 'group',
        at: [room.minX + SPACE_MM, bottom + (field.heightMm - picture.heightMm) / 2],
        items: picture.items,
      },
      {
        kind: 'label',
        at: [room.minX + SPACE_MM, room.minY + notes - SPACE_MM / 2],
        sizeMm: NOTE_MM.title,
        isBold: true,
        text: `Blank ${print.tape(flat.widthMm)} x ${print.tape(flat.heightMm)} ${print.word}, ${head.sheet}`,
      },
      ...lines.map(label),
    ],
  };
};
