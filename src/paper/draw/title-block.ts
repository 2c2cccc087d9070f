import { figure } from '../../text/figures.ts';
import type { Extents } from '../../geometry/extents.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { PictureItem, Stroke } from '../../model/picture.ts';
import type { DrawingHead } from './drawing-head.ts';
import { CENTRE, EDGE, LEAST_LINE_MM } from './line-types.ts';
import { boxRing, line, ring } from './strokes.ts';
import { fittedSizeMm } from './text-width.ts';

/** A title block is 180 mm wide (ISO 7200). */
export const TITLE_MM = { width: 180, height: 66 } as const;

const RULE: Stroke = { widthMm: 0.35 };
const THIN: Stroke = { widthMm: LEAST_LINE_MM };

/** A field: its heading small, what it says large; a share of the width from the left. */
interface Field {
  readonly at: number;
  readonly heading: string;
  readonly text: string;
  readonly isLarge?: boolean;
  readonly isFramed?: boolean;
}

interface Row {
  readonly heightMm: number;
  readonly fields: readonly Field[];
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
  for (const row of rowsOf(head, sheet, scale)) {
    if (y < top) items.push(line([left, y], [right, y], THIN));
    row.fields.forEach((field, i) => {
      const [from, to] = [left + field.at, left + (row.fields[i + 1]?.at ?? TITLE_MM.width)];
      if (i > 0) items.push(line([from, y], [from, y - row.heightMm], THIN));
      items.push(...fieldItems(field, { minX: from, maxX: to, minY: y - row.heightMm, maxY: y }));
    });
    y -= row.heightMm;
  }
  return [...items, ...firstAngleSymbol([right - 24, bottom + 4.6])];
};

const rowsOf = (head: DrawingHead, sheet: string, scale: string): Row[] => [
  ...partRows(head),
  ...paperRows(head, sheet, scale),
];

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
      { at: 73, heading: 'Made from the DXF', text: head.cutFile },
      { at: 146, heading: 'Sheet', text: sheet },
    ],
  },
  {
    heightMm: 10.2,
    fields: [
      { at: 0, heading: 'Drawn by', text: 'blankwright' },
      { at: 33, heading: 'Scale', text: scale },
      { at: 62, heading: 'Drawn on, by hand', text: '' },
      { at: 98, heading: 'First-angle projection', text: '' },
    ],
  },
];

const PAD_MM = 1.5;
/** From the rules of a field to the frame in it. */
const FRAME_MM = 0.8;

const fieldItems = (
  { heading, text, isLarge = false, isFramed = false }: Field,
  { minX, maxX, minY, maxY }: Extents,
): PictureItem[] => {
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

/**
 * The sign of first-angle projection: a cone cut short, its small end on the left, seen from there
 * on its right (ISO 5456-2).
 */
const firstAngleSymbol = ([x, y]: Vec2): PictureItem[] => [
  {
    kind: 'curve',
    pieces: ring([
      [x - 9, y - 1.6],
      [x, y - 3.2],
      [x, y + 3.2],
      [x - 9, y + 1.6],
    ]),
    stroke: RULE,
  },
  { kind: 'round', centre: [x + 10, y], radiusMm: 3.2, stroke: RULE },
  { kind: 'round', centre: [x + 10, y], radiusMm: 1.6, stroke: RULE },
  line([x - 11, y], [x + 2, y], CENTRE),
  line([x + 5.5, y], [x + 14.5, y], CENTRE),
  line([x + 10, y - 4.4], [x + 10, y + 4.4], CENTRE),
];
