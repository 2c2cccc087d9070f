import { LEAST_LINE_MM } from '../draw/line-types.ts';
import { boxRing, line } from '../draw/strokes.ts';
import { textWidthMm } from '../draw/text-width.ts';
import { SHEETS } from '../../model/paper.ts';
import type { Picture, PictureItem } from '../../model/picture.ts';
import { sectionOf } from './block-strips.ts';
import {
  CONTENT_MM,
  handedName,
  MARGIN_MM,
  type SheetContent,
  type SheetHead,
  TYPE_MM,
} from './content.ts';
import {
  gapStrip,
  lineMm,
  linesFrom,
  type Section,
  stacked,
  type Strip,
  textStrip,
} from './strips.ts';

const { widthMm: PAGE_WIDTH_MM, heightMm: PAGE_HEIGHT_MM } = SHEETS.a4;
const FOOT_MM = 5;
const BODY_MM = PAGE_HEIGHT_MM - 2 * MARGIN_MM - FOOT_MM;
/** A section no higher than this goes to the next page as a whole. */
const WHOLE_MM = 75;

/**
 * The sheet on pages of A4: what follows each other flows down them; tables go on with their heads
 * repeated.
 */
export function sheetPages({ head, blocks }: SheetContent): Picture[] {
  const first = headStrip(head);
  const small = textStrip(`${head.name}   ${head.hand ?? ''}`, {
    sizeMm: TYPE_MM.head,
    isBold: true,
  });
  const pages = flowed([{ head: [], body: [first] }, ...blocks.map(sectionOf)], small);
  return pages.map((strips, i) => ({
    widthMm: PAGE_WIDTH_MM,
    heightMm: PAGE_HEIGHT_MM,
    items: [...placed(strips), ...footOf(head, i + 1, pages.length)],
  }));
}

const heightOf = (strips: readonly Strip[]): number =>
  strips.reduce((sum, s) => sum + s.heightMm, 0);

/** Strips page by page. */
const flowed = (sections: readonly Section[], small: Strip): Strip[][] => {
  const pages: Strip[][] = [[]];
  const room = (): number => BODY_MM - heightOf(pages.at(-1) as Strip[]);
  const put = (...strips: readonly Strip[]): void => void pages.at(-1)?.push(...strips);
  const turn = (): void => void pages.push([small]);
  for (const { head, body } of sections) {
    const whole = heightOf([...head, ...body]);
    const start = heightOf([...head, ...body.slice(0, 2)]);
    if ((whole > room() && whole <= WHOLE_MM) || start > room()) turn();
    put(...head);
    for (const strip of body) {
      if (strip.heightMm > room()) {
        turn();
        put(...head);
      }
      put(strip);
    }
  }
  return pages;
};

const placed = (strips: readonly Strip[]): PictureItem[] => {
  let top = PAGE_HEIGHT_MM - MARGIN_MM;
  return strips.map((strip): PictureItem => {
    top -= strip.heightMm;
    return { kind: 'group', at: [MARGIN_MM, top], items: strip.items };
  });
};

/** Who the sheet is of, to be read across the shop: name, hand, how many, of what. */
const headStrip = ({ name, hand, quantity, sheet, lines, whole, stop }: SheetHead): Strip => {
  const handWide = hand === undefined ? 0 : textWidthMm(hand, TYPE_MM.name, true) + 6;
  const tall = lineMm(TYPE_MM.name) + 1;
  const boxItems = (words: string): PictureItem[] => [
    {
      kind: 'area',
      rims: [
        boxRing({ minX: CONTENT_MM - handWide, minY: 0.5, maxX: CONTENT_MM, maxY: tall - 0.5 }),
      ],
      stroke: { widthMm: 0.7 },
    },
    ...linesFrom([words], tall - 0.4, {
      sizeMm: TYPE_MM.name,
      isBold: true,
      x: CONTENT_MM - handWide + 3,
    }),
  ];
  const box: Strip = { heightMm: tall, items: hand === undefined ? [] : boxItems(hand) };
  const title = textStrip(name, {
    sizeMm: TYPE_MM.name,
    isBold: true,
    widthMm: CONTENT_MM - handWide - 4,
  });
  const top = Math.max(title.heightMm, tall);
  return stacked([
    {
      heightMm: top,
      items: [
        { kind: 'group', at: [0, top - title.heightMm], items: title.items },
        { kind: 'group', at: [0, top - tall], items: box.items },
      ],
    },
    textStrip(`${quantity},  ${sheet}`, { sizeMm: TYPE_MM.head + 1.5, isBold: true }),
    ...(lines.length === 0 ? [] : [textStrip(lines.join('.  '), { sizeMm: TYPE_MM.text })]),
    ...(whole === undefined
      ? []
      : [textStrip(`Joined to others: see ${whole}.pdf`, { sizeMm: TYPE_MM.text })]),
    ...(stop === undefined ? [] : [textStrip(stop, { sizeMm: TYPE_MM.name, isBold: true })]),
    { heightMm: 1.5, items: [line([0, 0.5], [CONTENT_MM, 0.5], { widthMm: 0.5 })] },
    gapStrip(1),
  ]);
};

const footOf = (head: SheetHead, page: number, of: number): PictureItem[] => {
  const style = { sizeMm: TYPE_MM.small } as const;
  const number = `page ${page} of ${of}`;
  const room = CONTENT_MM - textWidthMm(number, style.sizeMm) - 6;
  const text = cutOff([handedName(head), ...head.foot].join('  ·  '), room, style.sizeMm);
  return [
    line([MARGIN_MM, MARGIN_MM + 3.6], [MARGIN_MM + CONTENT_MM, MARGIN_MM + 3.6], {
      widthMm: LEAST_LINE_MM,
    }),
    { kind: 'label', at: [MARGIN_MM, MARGIN_MM], ...style, text },
    {
      kind: 'label',
      at: [MARGIN_MM + CONTENT_MM, MARGIN_MM],
      ...style,
      text: number,
      align: 'right',
    },
  ];
};

const cutOff = (text: string, widthMm: number, sizeMm: number): string => {
  if (textWidthMm(text, sizeMm) <= widthMm) return text;
  const letters = [...text];
  while (letters.length > 0 && textWidthMm(`${letters.join('')}...`, sizeMm) > widthMm)
    letters.pop();
  return `${letters.join('')}...`;
};
