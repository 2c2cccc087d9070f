import { codeItems } from '../draw/square-code.ts';
import { boxRing, line } from '../draw/strokes.ts';
import { textWidthMm } from '../draw/text-width.ts';
import { type SheetName, SHEETS } from '../../model/paper.ts';
import type { Picture, PictureItem } from '../../model/picture.ts';
import { sectionOf } from './block-strips.ts';
import {
  CODE_MM,
  contentMm,
  GUTTER_MM,
  MARGIN_MM,
  type SheetContent,
  type SheetHead,
  TYPE_MM,
} from './content.ts';
import {
  beside,
  gapStrip,
  lineMm,
  linesFrom,
  type Section,
  stacked,
  type Strip,
  textStrip,
} from './strips.ts';
import { TITLE_STRIP_MM, titleStripItems } from './title-strip.ts';

const bodyMm = (paper: SheetName): number =>
  SHEETS[paper].heightMm - 2 * MARGIN_MM - TITLE_STRIP_MM - 1;
/** A section no higher than this goes to the next page as a whole. */
const WHOLE_MM = 75;

/**
 * The sheet on pages of its paper: what follows each other flows down them; tables go on with their
 * heads repeated.
 */
export function sheetPages({ paper, head, blocks }: SheetContent): Picture[] {
  const wide = contentMm(paper);
  const first = headStrip(head, wide);
  const small = smallHead(head, wide);
  const sections = blocks.map((block) => sectionOf(block, wide));
  const pages = flowed([{ head: [], body: [first] }, ...sections], small, bodyMm(paper));
  return pages.map((strips, i) => ({
    ...SHEETS[paper],
    items: [
      ...placed(strips, SHEETS[paper].heightMm - MARGIN_MM),
      {
        kind: 'group',
        at: [MARGIN_MM, MARGIN_MM],
        items: titleStripItems(head, `${i + 1} of ${pages.length}, ${paper.toUpperCase()}`, wide),
      },
    ],
  }));
}

/** The head of every page but the first. */
const smallHead = ({ name, hand = '', caution }: SheetHead, wide: number): Strip =>
  stacked([
    textStrip(`${name}   ${hand}`, { sizeMm: TYPE_MM.head, isBold: true, widthMm: wide }),
    ...(caution === undefined
      ? []
      : [textStrip(caution, { sizeMm: TYPE_MM.text, isBold: true, widthMm: wide })]),
  ]);

/** The height that the first blocks of a sheet leave on its first page, mm; less than 0 where they go beyond it. */
export const firstPageSpareMm = ({
  paper,
  head,
  blocks,
}: Pick<SheetContent, 'paper' | 'head' | 'blocks'>): number => {
  const wide = contentMm(paper);
  const taken = blocks
    .map((block) => sectionOf(block, wide))
    .flatMap((s) => [...s.head, ...s.body]);
  return bodyMm(paper) - heightOf([headStrip(head, wide), ...taken]);
};

const heightOf = (strips: readonly Strip[]): number =>
  strips.reduce((sum, s) => sum + s.heightMm, 0);

/** Strips page by page. */
const flowed = (sections: readonly Section[], small: Strip, tall: number): Strip[][] => {
  const pages: Strip[][] = [[]];
  const room = (): number => tall - heightOf(pages.at(-1) as Strip[]);
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

const placed = (strips: readonly Strip[], from: number): PictureItem[] => {
  let top = from;
  return strips.map((strip): PictureItem => {
    top -= strip.heightMm;
    return { kind: 'group', at: [MARGIN_MM, top], items: strip.items };
  });
};

/** Who the sheet is of, to be read across the shop, and beside it the code that leads back to it. */
const headStrip = (head: SheetHead, wide: number): Strip => {
  const left = wide - CODE_MM - GUTTER_MM / 2;
  const code: Strip = { heightMm: CODE_MM, items: codeItems(head.paperMark, CODE_MM, [0, 0]) };
  return stacked([
    beside({ x: 0, strip: whoStrip(head, left) }, { x: wide - CODE_MM, strip: code }),
    { heightMm: 1.5, items: [line([0, 0.5], [wide, 0.5], { widthMm: 0.5 })] },
    gapStrip(1),
  ]);
};

/** Name, hand, how many, of what. */
const whoStrip = (
  { name, hand, quantity, sheet, lines, whole, stop }: SheetHead,
  wide: number,
): Strip => {
  const handWide = hand === undefined ? 0 : textWidthMm(hand, TYPE_MM.name, true) + 6;
  const tall = lineMm(TYPE_MM.name) + 1;
  const boxItems = (words: string): PictureItem[] => [
    {
      kind: 'area',
      rims: [boxRing({ minX: wide - handWide, minY: 0.5, maxX: wide, maxY: tall - 0.5 })],
      stroke: { widthMm: 0.7 },
    },
    ...linesFrom([words], tall - 0.4, {
      sizeMm: TYPE_MM.name,
      isBold: true,
      x: wide - handWide + 3,
    }),
  ];
  const box: Strip = { heightMm: tall, items: hand === undefined ? [] : boxItems(hand) };
  const title = textStrip(name, {
    sizeMm: TYPE_MM.name,
    isBold: true,
    widthMm: wide - handWide - 4,
  });
  const top = Math.max(title.heightMm, tall);
  const words = (text: string): Strip => textStrip(text, { sizeMm: TYPE_MM.text, widthMm: wide });
  return stacked([
    {
      heightMm: top,
      items: [
        { kind: 'group', at: [0, top - title.heightMm], items: title.items },
        { kind: 'group', at: [0, top - tall], items: box.items },
      ],
    },
    textStrip(`${quantity},  ${sheet}`, {
      sizeMm: TYPE_MM.head + 1.5,
      isBold: true,
      widthMm: wide,
    }),
    ...(lines.length === 0 ? [] : [words(lines.join('.  '))]),
    ...(whole === undefined ? [] : [words(`Joined to others: see ${whole}.pdf`)]),
    ...(stop === undefined
      ? []
      : [textStrip(stop, { sizeMm: TYPE_MM.name, isBold: true, widthMm: wide })]),
  ]);
};
