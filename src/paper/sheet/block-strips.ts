import { boxRing, line } from '../draw/strokes.ts';
import { textWidthMm } from '../draw/text-width.ts';
import type { Picture, PictureItem } from '../../model/picture.ts';
import {
  type Fact,
  GUTTER_MM,
  type NoticeBlock,
  type Overview,
  type PictureBlock,
  type SheetBlock,
  type SheetStep,
  type StepsBlock,
  type TextBlock,
  TYPE_MM,
} from './content.ts';
import {
  beside,
  captionStrips,
  gapStrip,
  lineMm,
  linesFrom,
  type Section,
  stacked,
  type Strip,
  textStrip,
  titleStrip,
} from './strips.ts';
import { tableSection } from './table-strips.ts';
import { wrapped } from '../draw/wrap.ts';

/** A block of the sheet in strips for paper, `wide` mm wide. */
export const sectionOf = (block: SheetBlock, wide: number): Section => {
  switch (block.kind) {
    case 'overview':
      return overviewSection(block, wide);
    case 'picture':
      return pictureSection(block, wide);
    case 'table':
      return tableSection(block, wide);
    case 'steps':
      return stepsSection(block, wide);
    case 'texts':
      return textSection(block, wide);
    case 'notice':
      return noticeSection(block, wide);
  }
};

const overviewSection = ({ picture, facts, blank }: Overview, wide: number): Section => {
  if (blank !== undefined) return { head: [], body: [besideBlank(blank, picture, facts, wide)] };
  const x = picture === undefined ? 0 : picture.widthMm + GUTTER_MM;
  const list = stacked(facts.map((fact) => factStrip(fact, wide - x)));
  if (picture === undefined) return { head: [], body: [list] };
  return {
    head: [],
    body: [beside({ x: 0, strip: picture }, { x, strip: stacked([gapStrip(3), list]) })],
  };
};

const besideBlank = (
  { title, picture, captions }: PictureBlock,
  view: Picture | undefined,
  facts: readonly Fact[],
  wide: number,
): Strip => {
  const { widthMm } = picture;
  const x = widthMm + GUTTER_MM;
  const left = stacked([
    titleStrip(title, widthMm),
    picture,
    gapStrip(1),
    ...captionStrips(captions, widthMm),
  ]);
  const right = stacked([
    ...(view === undefined ? [] : [view]),
    gapStrip(2),
    ...facts.map((fact) => factStrip(fact, wide - x)),
  ]);
  return beside({ x: 0, strip: left }, { x, strip: right });
};

/** The name small, what it is large under it. */
const factStrip = ({ name, value, isBig = false }: Fact, widthMm: number): Strip =>
  stacked([
    textStrip(name, { sizeMm: TYPE_MM.small, widthMm }),
    textStrip(value, { sizeMm: isBig ? TYPE_MM.head : TYPE_MM.text + 0.4, isBold: true, widthMm }),
    gapStrip(1.4),
  ]);

const pictureSection = ({ title, picture, captions }: PictureBlock, wide: number): Section => ({
  head: [titleStrip(title, wide)],
  body: [stacked([gapStrip(1), picture, gapStrip(1), ...captionStrips(captions, wide)])],
});

const stepsSection = ({ title, captions, across, steps }: StepsBlock, wide: number): Section => {
  const widthMm = across === 1 ? wide : (wide - GUTTER_MM) / 2;
  const cells = steps.map((step) => stepStrip(step, widthMm));
  const rows = Array.from({ length: Math.ceil(cells.length / across) }, (_, i) =>
    cells.slice(i * across, (i + 1) * across),
  );
  return {
    head: [titleStrip(title, wide)],
    body: [
      ...captionStrips(captions, wide),
      ...rows.map((row) =>
        stacked([
          beside(...row.map((strip, i) => ({ x: i * (widthMm + GUTTER_MM), strip }))),
          gapStrip(2),
        ]),
      ),
    ],
  };
};

const stepStrip = ({ title, lines, pictures }: SheetStep, widthMm: number): Strip => {
  const first = pictures[0];
  const step =
    first === undefined
      ? 0
      : first.widthMm +
        (widthMm - pictures.length * first.widthMm) / Math.max(1, pictures.length - 1);
  return stacked([
    gapStrip(1),
    textStrip(title, { sizeMm: TYPE_MM.big, isBold: true, widthMm }),
    ...lines.map((text) => textStrip(text, { sizeMm: TYPE_MM.text, widthMm })),
    gapStrip(1),
    ...(first === undefined
      ? []
      : [beside(...pictures.map((strip, i) => ({ x: i * step, strip })))]),
  ]);
};

/** In a heavy frame, the lead in larger letters. */
const noticeSection = ({ lead, text }: NoticeBlock, wide: number): Section => {
  const rim = 1.5;
  const x = rim + textWidthMm(lead, TYPE_MM.title, true) + 3;
  const words = textStrip(text, {
    sizeMm: TYPE_MM.text,
    isBold: true,
    x,
    widthMm: wide - x - rim,
  });
  const tall = Math.max(words.heightMm, lineMm(TYPE_MM.title)) + rim;
  const frame: Strip = {
    heightMm: tall,
    items: [
      {
        kind: 'area',
        rims: [boxRing({ minX: 0.3, minY: 0, maxX: wide - 0.3, maxY: tall })],
        stroke: { widthMm: 0.6 },
      },
      ...linesFrom([lead], tall - rim / 2, { sizeMm: TYPE_MM.title, isBold: true, x: rim }),
      { kind: 'group', at: [0, tall - rim / 2 - words.heightMm], items: words.items },
    ],
  };
  return { head: [], body: [stacked([gapStrip(0.8), frame, gapStrip(1.2)])] };
};

const textSection = ({ title, texts }: TextBlock, wide: number): Section => {
  const leads = texts.map(({ lead }) =>
    lead === undefined ? 0 : textWidthMm(lead, TYPE_MM.note, true) + 3,
  );
  const x = Math.max(4, ...leads);
  const style = { sizeMm: TYPE_MM.note, x, widthMm: wide - x };
  return {
    head: [titleStrip(title, wide)],
    body: texts.map(({ lead, text }): Strip => {
      const lines = wrapped(text, style.widthMm, style.sizeMm);
      const heightMm = lines.length * lineMm(style.sizeMm) + 0.5;
      const sign: PictureItem[] =
        lead === undefined
          ? [line([0.5, heightMm - 2.2], [2.5, heightMm - 2.2], { widthMm: 0.35 })]
          : linesFrom([lead], heightMm, { sizeMm: TYPE_MM.note, isBold: true });
      return { heightMm, items: [...sign, ...linesFrom(lines, heightMm, style)] };
    }),
  };
};
