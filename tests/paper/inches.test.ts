import { expect, test } from 'vitest';
import { printedIn, type PrintUnit } from '../../src/text/printed.ts';
import type { Picture, PictureItem } from '../../src/model/picture.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { fitShort } from '../../src/fit/short.ts';
import { cardPages } from '../../src/paper/draw/card-template.ts';
import { foldPages } from '../../src/paper/draw/fold-pages.ts';
import { blankSizes } from '../../src/paper/sizes/blank-sizes.ts';
import { sizeTables } from '../../src/paper/sizes/size-tables.ts';
import type { TableBlock } from '../../src/paper/sheet/content.ts';
import { sheetContent } from '../../src/paper/sheet/sheet-content.ts';
import { assemblySheet } from '../../src/use/assembly/assembly-sheet.ts';
import { setsOf } from '../../src/use/assembly/assembled.ts';
import { fitText } from '../../src/use/fit/fit-text.ts';
import { makeTexts } from '../../src/use/make/make-text.ts';
import type { MadePart, WholePart } from '../../src/use/made-part.ts';
import { foldCards } from '../../src/use/outputs/folding.ts';
import { drawingPages } from '../../src/use/pack/drawing-pdf.ts';
import { planText } from '../../src/use/plan/plan-text.ts';
import { FAMILIES } from '../../templates/index.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { byTurns, examplesIn, IS_FULL, someOf } from '../helpers/extent.ts';
import { madeOnce } from '../helpers/made-once.ts';

/**
 * What stays metric on a paper in inches, since the standard is: sheet is ordered by its name and
 * thickness in mm (EN 10131, EN 10051, EN 485-4); the check line of a card is 100 mm long and a rule
 * with mm is the surest to read it by. Threads and their pitches (ISO 68-1, ISO 261) have no `mm`.
 */
const METRIC = [
  /100 mm(?:, within 0\.5 mm)?/g,
  /(?:[a-z0-9]+(?:-h\d+)?|[A-Z0-9]+(?:-\d+)?|EN AW-\d+ [HTO]\d*|\d\.\d{4}|[A-Z]+\d+[A-Z0-9+-]*)(?: \([^)]*\))?,? \d+(?:\.\d+)? mm(?=$|\n|,| and|;)/g,
];

const labelsOf = (items: readonly PictureItem[]): string[] =>
  items.flatMap((item) =>
    item.kind === 'label' ? [item.text] : item.kind === 'group' ? labelsOf(item.items) : [],
  );

const textsOf = (pages: readonly Picture[]): string[] =>
  pages.flatMap(({ items }) => labelsOf(items));

/** Texts in their order outside of pictures, and those within pictures. */
interface Texts {
  readonly written: readonly string[];
  readonly drawn: readonly string[];
}

/** Which unit the figures of a picture are in, and to what they are rounded. */
const SIZES_SENTENCE =
  /^In (?:mm, to 0\.1|inches, to the nearest 1\/32; what is over or short of that in thousandths behind it)\. /;

/** How many names find no room beside their longer figures. */
const NO_ROOM = /^\d+ names? ha(?:s|ve) no room here/;

/** What a picture has no room for is told in these, and the other way about. */
const MOVABLE = /^(?:Corners|Ends of the fold lines) that the picture has no sizes of/;

const contentTexts = (value: unknown): Texts => {
  const written: string[] = [];
  const drawn: string[] = [];
  const walk = (inner: unknown): void => {
    if (typeof inner === 'string')
      written.push(...(NO_ROOM.test(inner) ? [] : [inner.replace(SIZES_SENTENCE, '')]));
    else if (typeof inner === 'object' && inner !== null)
      if ('title' in inner && MOVABLE.test(String(inner.title)))
        drawn.push(...(inner as unknown as TableBlock).rows.flat());
      else if ('widthMm' in inner && 'items' in inner)
        drawn.push(...labelsOf((inner as Picture).items));
      else for (const one of Object.values(inner)) walk(one);
  };
  walk(value);
  return { written, drawn };
};

const PAPERS: Readonly<Record<string, (part: WholePart, units: PrintUnit) => Texts>> = {
  sheet: (made, units) => {
    const { fit } = made.result;
    const print = printedIn(units);
    return contentTexts(
      sheetContent({ made, units, ...(fit !== null && { fit: fitShort(fit, print) }) }).blocks,
    );
  },
  card: ({ flat, datum, drawing, result: { name } }, units) => ({
    written: [],
    drawn: textsOf(
      cardPages({
        flat,
        datum,
        drawing,
        name,
        about: '',
        paper: 'a3',
        paperMark: { part: name },
        print: printedIn(units),
      }),
    ),
  }),
  archive: (made, units) => {
    const { name: baseName } = made.result;
    const whole = { made, fold: 'service', baseName, sharesBlank: false } as const;
    const files = { cutFile: 'cut.dxf', file: 'part.pdf' };
    return {
      written: [],
      drawn: textsOf(
        drawingPages(whole, files, { handover: DEFAULT_SHOP.handover, printUnits: units }),
      ),
    };
  },
  folding: (made, units) => {
    if (made.plan === undefined) return { written: [], drawn: [] };
    const cards = foldCards(made.result, made.plan, { ...made, print: printedIn(units) });
    if (cards === undefined) return { written: [], drawn: [] };
    return {
      written: [
        ...cards.captions,
        ...cards.strokes.flatMap(({ title, lines }) => [title, ...lines.flat()]),
      ],
      drawn: textsOf(foldPages(cards)),
    };
  },
  terminal: ({ result }, units) => ({
    written: [
      ...makeTexts({ parts: [{ ...result, fit: null, files: [] }], lists: [], reports: [] }, units),
      planText(result.name, result.foldPlan, 'flat', printedIn(units)),
    ],
    // Columns that are wrapped elsewhere have their figures in another order.
    drawn: result.fit === null ? [] : [fitText(result.name, result.fit, printedIn(units))],
  }),
};

/** Figures of a text: decimals, and inches with fractions and what is left over; radii have an R. */
const FIGURE =
  /(?:(?<=\bR)|(?<![\w.,/]))(?:(\d+) (?=\d+\/\d))?(?:(\d+)\/(\d+)|(\d+(?:\.\d+)?))(?:([+-])(\.\d{3}))?(?![\w/]|\.\d)/g;

interface Read {
  readonly value: number;
  /** Half of the last digit. */
  readonly within: number;
}

const figuresIn = (text: string): Read[] =>
  [...text.matchAll(FIGURE)].map(([, whole = '0', top, below, plain = '0', sign, off = '0']) => ({
    value:
      Number(whole) +
      (top === undefined ? Number(plain) : Number(top) / Number(below)) +
      (sign === '-' ? -1 : 1) * Number(off),
    within: 0.5 * 10 ** -(plain.split('.')[1]?.length ?? 0),
  }));

const INCH_MM = 25.4;
const SIXTY_FOURTH = 1 / 64;

/** Whether a figure in inches is that in mm, or no length: an angle, a count, a mass. */
const isSame = (mm: Read, inch: Read): boolean =>
  Math.abs(mm.value - inch.value) < 1e-9 ||
  Math.abs(mm.value / INCH_MM - inch.value) <= SIXTY_FOURTH + mm.within / INCH_MM;

const FACTORS = [INCH_MM ** 2 / 100, 304.8 ** 2 / 1e6];

/** An area: cm² and in². */
const isSameArea = (mm: Read, inch: Read): boolean =>
  FACTORS.some((f) => Math.abs(mm.value / f - inch.value) <= inch.within + mm.within / f + 1e-9);

const metricLeft = (texts: readonly string[]): string[] =>
  texts
    .map((text) => METRIC.reduce((left, known) => left.replace(known, ''), text))
    .filter((text) => /(?<![\w])mm(?!\w)/.test(text));

/** Places of all corners and fold lines from the datum, of which papers tell some beside the picture. */
const placesOf = ({ flat, datum }: WholePart): Read[] => {
  const count = { below: 0, left: 0, above: 0, right: 0 };
  const sizes = blankSizes(flat, datum, { count, closeMm: 0, oneLineMm: 0 });
  return sizeTables(sizes).flatMap(({ rows }) => rows.flat().flatMap(figuresIn));
};

/**
 * Angles and counts: longer figures may leave room for a smaller scale only, take more pages, and leave
 * fewer roundings to be told beside the picture.
 */
const NO_LENGTHS = [
  SIZES_SENTENCE,
  /[\d.]+°/g,
  /^[\d.]+:[\d.]+$/,
  /^\d+ of \d+, (?=A\d)/,
  /^\d+ x (?=R)/,
];

const compare = (where: string, mm: Texts, inch: Texts, known: readonly Read[] = []): void => {
  expect(metricLeft([...inch.written, ...inch.drawn]), where).toEqual([]);
  expect(inch.written.length, where).toBe(mm.written.length);
  for (const [i, text] of inch.written.entries()) {
    const asked = figuresIn(mm.written[i] as string);
    const read = figuresIn(text);
    // The ends of a range that are the same in inches are told once.
    const isOnce = read.length === 1 && / to /.test(mm.written[i] as string);
    const told = isOnce ? asked.map(() => read[0] as Read) : read;
    expect(told.length, `${where}: ${mm.written[i]} | ${text}`).toBe(asked.length);
    const off = told.filter((read, k) => {
      const own = asked[k] as Read;
      return !isSame(own, read) && !(text.includes('²') && isSameArea(own, read));
    });
    expect(off, `${where}: ${mm.written[i]} | ${text}`).toEqual([]);
  }
  // Names find room elsewhere when their figures are longer: each is one of those in mm.
  const all = [...mm.drawn.flatMap(figuresIn), ...known];
  for (const text of inch.drawn)
    expect(
      figuresIn(NO_LENGTHS.reduce((left, known) => left.replace(known, ''), text)).filter(
        (read) => !all.some((own) => isSame(own, read)),
      ),
      `${where}: ${text}`,
    ).toEqual([]);
};

const isWhole = (part: MadePart): part is WholePart => !part.stopped;

test.each([...FAMILIES.keys()].map((family, place) => [family, place] as const))(
  '%s: printed in inches no length is metric, and each is that in mm to 1/64',
  async (family, place) => {
    const template = await loadFamily(family);
    const fit = family === 'bracket-hat' ? { fit: {} } : {};
    for (const [i, { inputs }] of someOf(examplesIn(template), 3, place).entries()) {
      const made = madeOnce(template, inputs, fit);
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      for (const part of someOf(made.parts.filter(isWhole), 4, i))
        // All papers take long: each example has some, each family all.
        for (const paper of byTurns(Object.keys(PAPERS), place + i, 3)) {
          const texts = PAPERS[paper] as (typeof PAPERS)[string];
          compare(
            `${part.result.name}, ${paper}`,
            texts(part, 'mm'),
            texts(part, 'inch'),
            placesOf(part),
          );
        }
      for (const set of IS_FULL ? setsOf(made.parts) : []) {
        const told = (units: PrintUnit): Texts =>
          contentTexts(assemblySheet({ set, units }).blocks);
        compare(`${set.name}, assembly`, told('mm'), told('inch'));
      }
    }
  },
);
