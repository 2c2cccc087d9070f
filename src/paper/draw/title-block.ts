import { figure } from '../../text/figures.ts';
import type { Extents } from '../../geometry/extents.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { PictureItem, Stroke } from '../../model/picture.ts';
import type { DrawingHead } from './drawing-head.ts';
import { CENTRE, EDGE, LEAST_LINE_MM } from './line-types.ts';
import { boxRing, line, ring } from './strokes.ts';
import { codeItems } from './square-code.ts';
import { fittedSizeMm, textWidthMm } from './text-width.ts';
import { wrapped } from './wrap.ts';

/** A title block is 180 mm wide (ISO 7200). */
export const TITLE_MM = { width: 180, height: 76.2 } as const;

/** The square code in it, over the two rows at the top of its field, at the right end of them. */
const CODE_MM = 20.4;
const CODE_AT = TITLE_MM.width - CODE_MM;

const RULE: Stroke = { widthMm: 0.35 };
const THIN: Stroke = { widthMm: LEAST_LINE_MM };

/** A field: its heading small, what it says large; a share of the width from the left. */
interface Field {
  readonly at: number;
  readonly heading: string;
  readonly text: string;
  readonly isLarge?: boolean;
  readonly isFramed?: boolean;
  /** Bold, in as many lines as it needs, its heading beside them. */
  readonly isLines?: boolean;
}

interface Row {
  readonly heightMm: number;
  readonly fields: readonly Field[];
  /** The square code stands at its right end. */
  readonly isBesideCode?: boolean;
}

/** Sheet number and scale of one page, as texts: `1 of 2`, `1:2`. */
export interface PageTexts {
  readonly sheet: string;
  readonly scale: string;
}

/** The block with its lower right corner at a point. */
export const titleBlock = (
  head: DrawingHead,
  { sheet, scale }: PageTexts,
  [right, bottom]: Vec2,
): PictureItem[] => {
  const [left, top] = [right - TITLE_MM.width, bottom + TITLE_MM.height];
  const items: PictureItem[] = [
    {
      kind: 'curve',
      pieces: boxRing({ minX: left, minY: bottom, maxX: right, maxY: top }),
      stroke: RULE,
    },
  ];
  let y = top;
  const rows = rowsOf(head, sheet, scale);
  rows.forEach((row, i) => {
    const isBeside = row.isBesideCode === true;
    const isUnder = isBeside && rows[i - 1]?.isBesideCode === true;
    if (i > 0) items.push(line([left, y], [isUnder ? left + CODE_AT : right, y], THIN));
    if (isBeside && !isUnder) items.push(...codeCell(head, [left + CODE_AT, y]));
    items.push(...rowItems(row, left, y));
    y -= row.heightMm;
  });
  return [...items, ...firstAngleSymbol([right - 24, bottom + 4.6])];
};

/** The fields of a row with its upper left corner at a point, and lines between them. */
const rowItems = (
  { heightMm, fields, isBesideCode = false }: Row,
  left: number,
  y: number,
): PictureItem[] =>
  fields.flatMap((field, i) => {
    const end = fields[i + 1]?.at ?? (isBesideCode ? CODE_AT : TITLE_MM.width);
    const [from, to] = [left + field.at, left + end];
    return [
      ...(i > 0 ? [line([from, y], [from, y - heightMm], THIN)] : []),
      ...fieldItems(field, { minX: from, maxX: to, minY: y - heightMm, maxY: y }),
    ];
  });

/** The square code with its upper left corner at a point. */
const codeCell = ({ paperMark }: DrawingHead, [x, y]: Vec2): PictureItem[] => [
  ...codeItems(paperMark, CODE_MM, [x, y - CODE_MM]),
  line([x, y], [x, y - CODE_MM], THIN),
];

const rowsOf = (head: DrawingHead, sheet: string, scale: string): Row[] => [
  cautionRow(head),
  ...partRows(head),
  ...paperRows(head, sheet, scale),
];

/** What to beware of, on every page; the last one has it in full. */
const cautionRow = ({ cautions }: DrawingHead): Row => ({
  heightMm: 10.2,
  fields: [
    {
      at: 0,
      heading: 'CAUTION',
      text: cautions.length === 0 ? '-' : `${cautions.map(({ short }) => short).join('; ')}.`,
      isLines: true,
    },
  ],
});

/** What the part is, and what is asked of it. */
const partRows = (head: DrawingHead): Row[] => [
  {
    heightMm: 15,
    fields: [
      { at: 0, heading: 'Part', text: head.name, isLarge: true },
      head.hand === undefined
        ? { at: 98, heading: 'Hand', text: 'there is one only' }
        : {
            at: 98,
            heading: 'Hand: there is another one',
            text: `${head.hand.toUpperCase()} HAND`,
            isLarge: true,
            isFramed: true,
          },
      { at: 146, heading: 'Quantity', text: `${head.quantity} off`, isLarge: true },
    ],
  },
  {
    heightMm: 10.2,
    fields: [
      { at: 0, heading: 'Material and thickness', text: head.sheet },
      { at: 98, heading: 'Mass of one', text: `${figure(head.massKg, 3)} kg` },
      { at: 146, heading: 'Revision', text: head.revision === '' ? '-' : head.revision },
    ],
  },
  {
    heightMm: 10.2,
    isBesideCode: true,
    fields: [
      { at: 0, heading: 'General tolerances', text: `ISO 2768-${head.tolerance}` },
      {
        at: 48,
        heading: `Lengths in ${head.print.unit === 'mm' ? 'mm' : 'inches'}, legs measured to`,
        text: `${head.measure} faces`,
      },
      {
        at: 98,
        heading: 'Folded, overall',
        text: `${head.sizeMm.map((v) => head.print.tape(v, 1)).join(' x ')} ${head.print.word}`,
      },
    ],
  },
  {
    heightMm: 10.2,
    isBesideCode: true,
    fields: [
      { at: 0, heading: 'Grain (rolling direction)', text: head.grain },
      { at: 98, heading: 'Face to protect', text: head.protect },
    ],
  },
];

/** The drawing itself, and the file that the blank is cut from. */
const paperRows = (head: DrawingHead, sheet: string, scale: string): Row[] => [
  {
    heightMm: 10.2,
    fields: [
      { at: 0, heading: 'Drawing', text: head.file },
      {
        at: 73,
        heading: `Made from the DXF${head.paperMark.sha === undefined ? '' : ` of SHA-256 ${head.paperMark.sha}`}`,
        text: head.cutFile,
      },
      { at: 146, heading: 'Sheet', text: sheet },
    ],
  },
  {
    heightMm: 10.2,
    fields: [
      { at: 0, heading: 'Drawn by', text: 'blankwright' },
      { at: 33, heading: 'Scale', text: scale },
      { at: 62, heading: head.date === '' ? 'Issued, by hand' : 'Issued', text: head.date },
      { at: 98, heading: 'First-angle projection', text: '' },
    ],
  },
];

const PAD_MM = 1.5;
/** From the rules of a field to the frame in it. */
const FRAME_MM = 0.8;

const fieldItems = (
  { heading, text, isLarge = false, isFramed = false, isLines = false }: Field,
  { minX, maxX, minY, maxY }: Extents,
): PictureItem[] => {
  if (isLines) return linesBeside(heading, text, { minX, maxX, minY, maxY });
  const want = isLarge ? 6.5 : 4;
  const sizeMm = fittedSizeMm(text, want, maxX - minX - 2 * PAD_MM, isLarge);
  return [
    ...(isFramed
      ? [
          {
            kind: 'curve',
            pieces: boxRing({
              minX: minX + FRAME_MM,
              minY: minY + FRAME_MM,
              maxX: maxX - FRAME_MM,
              maxY: maxY - 4.2,
            }),
            stroke: EDGE,
          } as const,
        ]
      : []),
    { kind: 'label', at: [minX + PAD_MM, maxY - 3.4], sizeMm: 2.5, text: heading },
    { kind: 'label', at: [minX + PAD_MM, minY + (isLarge ? 3 : 2)], sizeMm, text, isBold: isLarge },
  ];
};

/** Letters of lines in a field, the largest of which they find room, mm. */
const LINES_MM = [4, 3.4, 2.9, 2.5, 2.1, 1.8] as const;

const linesBeside = (
  heading: string,
  text: string,
  { minX, maxX, minY, maxY }: Extents,
): PictureItem[] => {
  const left = minX + 2 * PAD_MM + textWidthMm(heading, LINES_MM[0], true);
  const linesAt = (sizeMm: number): string[] => wrapped(text, maxX - PAD_MM - left, sizeMm, true);
  const tall = (sizeMm: number): number => linesAt(sizeMm).length * LINE_STEP * sizeMm;
  const sizeMm =
    LINES_MM.find((size) => tall(size) <= maxY - minY - 1) ?? (LINES_MM.at(-1) as number);
  const top = (minY + maxY + tall(sizeMm)) / 2;
  const label = (words: string, at: Vec2, size: number): PictureItem => ({
    kind: 'label',
    at,
    sizeMm: size,
    text: words,
    isBold: true,
  });
  return [
    label(heading, [minX + PAD_MM, (minY + maxY) / 2 - 0.36 * LINES_MM[0]], LINES_MM[0]),
    ...linesAt(sizeMm).map((words, i) =>
      label(words, [left, top - (i + 0.78) * LINE_STEP * sizeMm], sizeMm),
    ),
  ];
};

/** From one line to the next, in sizes of their letters. */
const LINE_STEP = 1.2;

/**
 * The sign of first-angle projection: a cone cut short, its small end on the left, seen from there
 * on its right (ISO 5456-2).
 */
export const firstAngleSymbol = ([x, y]: Vec2, scale = 1): PictureItem[] => {
  const at = (dx: number, dy: number): Vec2 => [x + scale * dx, y + scale * dy];
  return [
    {
      kind: 'curve',
      pieces: ring([at(-9, -1.6), at(0, -3.2), at(0, 3.2), at(-9, 1.6)]),
      stroke: RULE,
    },
    { kind: 'round', centre: at(10, 0), radiusMm: 3.2 * scale, stroke: RULE },
    { kind: 'round', centre: at(10, 0), radiusMm: 1.6 * scale, stroke: RULE },
    line(at(-11, 0), at(2, 0), CENTRE),
    line(at(5.5, 0), at(14.5, 0), CENTRE),
    line(at(10, -4.4), at(10, 4.4), CENTRE),
  ];
};
