import { describe, expect, test } from 'vitest';
import { add, distance, type Vec2 } from '../../../src/geometry/vec2.ts';
import { DEFAULT_SHOP } from '../../../src/data/shop-default.ts';
import { MACHINES } from '../../../src/data/machines.ts';
import { planOnShop } from '../../../src/plan/of-part/shop-plan.ts';
import type { Label, Picture, PictureItem } from '../../../src/model/picture.ts';
import { cardAbout, cardPages } from '../../../src/paper/draw/card-template.ts';
import { foldPages } from '../../../src/paper/draw/fold-pages.ts';
import { sheetContent } from '../../../src/paper/sheet/sheet-content.ts';
import { sheetPages } from '../../../src/paper/sheet/sheet-pages.ts';
import { foldCards } from '../../../src/use/outputs/folding.ts';
import type { WholePart } from '../../../src/use/made-part.ts';
import { drawingPages } from '../../../src/use/pack/drawing-pdf.ts';
import { sorted } from '../../../src/use/pack/pack-part.ts';
import { FAMILIES } from '../../../templates/index.ts';
import { examplesIn, someOf } from '../../helpers/extent.ts';
import {
  offPage,
  overlapping,
  type Painted,
  paintedOf,
  struckThrough,
} from '../../helpers/legible.ts';
import { madeOnce } from '../../helpers/made-once.ts';

/** The least size of letters and the least width of lines on paper, mm. */
const LEAST_LETTERS_MM = 2;
const LEAST_LINE_MM = 0.13;

/** All papers of a part, by their names. */
const papersOf = (made: WholePart): readonly (readonly [string, readonly Picture[]])[] => {
  const { flat, datum, drawing, result } = made;
  const fold = { part: made.part, flat, material: made.material, bends: [] };
  const plan = planOnShop(fold, MACHINES, 50_000);
  const cards = plan === undefined ? undefined : foldCards(result, plan, made);
  const [whole] = sorted([{ made, fold: 'service' }]).whole;
  return [
    ['sheet', sheetPages(sheetContent({ made }))],
    [
      'card',
      cardPages({
        flat,
        datum,
        drawing,
        name: result.name,
        hand: result.hand,
        about: cardAbout({ quantity: 1, sheet: 's235 2 mm', flat }),
        paper: 'a4',
        paperMark: { part: result.name, file: 'cut.dxf', sha: '1a2b3c4d5e6f' },
      }),
    ],
    ...(cards === undefined ? [] : [['folding', foldPages(cards)] as const]),
    ...(whole === undefined || flat.bends.length === 0
      ? []
      : [
          [
            'drawing',
            drawingPages(whole, { cutFile: 'cut.dxf', file: 'part.pdf' }, DEFAULT_SHOP),
          ] as const,
        ]),
  ];
};

/**
 * A card without what may lie under its texts. Joining marks, triangles of 4 mm about a letter, keep
 * off texts where they can; where a text fills half of an overlap they stay far apart all the same.
 * Whether texts lie on the metal is the drawing's own matter: it has them from the cut file.
 */
const withoutMarks = (page: Picture, painted: Painted): Painted => {
  const isLetter = ({ text, sizeMm }: Label): boolean =>
    /^[A-Z]{1,2}$/.test(text) && sizeMm === 2.6;
  const centres = page.items.flatMap((item) =>
    item.kind === 'group' && item.clip !== undefined
      ? item.items.flatMap((mark) =>
          mark.kind === 'label' && isLetter(mark)
            ? [add([mark.at[0], mark.at[1] + 1.7], item.at)]
            : [],
        )
      : [],
  );
  const isMark = (p: Vec2): boolean => centres.some((centre) => distance(centre, p) < 4.4);
  return {
    ...painted,
    texts: painted.texts.filter(({ label }) => !isLetter(label)),
    lines: painted.lines.filter(({ line, widthMm }) => !line.every(isMark) && widthMm < 0.5),
  };
};

describe.each([...FAMILIES])('%s', async (_, load) => {
  const template = (await load()).default;
  test.each(examplesIn(template))(
    'every text can be read: on the paper, on no other text, no line through it: $title',
    ({ inputs }) => {
      const made = madeOnce(
        template,
        { ...inputs, hand: 'left' },
        { foldAt: 'service', shop: DEFAULT_SHOP },
      );
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      for (const part of someOf(made.parts, 4)) {
        if (part.stopped) throw new Error(`${part.result.name} is stopped`);
        for (const [paper, pages] of papersOf(part))
          for (const [i, page] of pages.entries()) {
            const painted =
              paper === 'card' ? withoutMarks(page, paintedOf(page)) : paintedOf(page);
            const found = [
              ...offPage(page, painted),
              ...overlapping(painted),
              ...struckThrough(painted),
            ];
            // ISO 3098 and ISO 128-2: least letters and lines that a print of a workshop shows.
            const thinnest = Math.min(...painted.lines.map((l) => l.widthMm).filter((w) => w > 0));
            const smallest = Math.min(...painted.texts.map((t) => t.label.sizeMm));
            if (paper !== 'card') expect(smallest).toBeGreaterThanOrEqual(LEAST_LETTERS_MM);
            expect(thinnest).toBeGreaterThanOrEqual(LEAST_LINE_MM);
            expect([part.result.name, paper, i + 1, found]).toEqual([
              part.result.name,
              paper,
              i + 1,
              [],
            ]);
          }
      }
    },
  );
});

describe('whether a text can be read', () => {
  const label = (x: number, y: number, more: Partial<Label> = {}): Label => ({
    kind: 'label',
    at: [x, y],
    sizeMm: 4,
    text: 'ABC',
    ...more,
  });
  const page = (...items: readonly PictureItem[]): Picture => ({
    widthMm: 100,
    heightMm: 100,
    items,
  });
  const line = (y: number): PictureItem => ({
    kind: 'curve',
    pieces: [{ from: [0, y], to: [100, y], bulge: 0 }],
    stroke: { widthMm: 0.2 },
  });
  const patch: PictureItem = {
    kind: 'round',
    centre: [54, 51],
    radiusMm: 8,
    fill: 1,
  };

  test('is told by what is painted, and in which order', () => {
    const one = label(50, 50);
    expect(offPage(page(one, label(95, 50), label(50, 99)))).toEqual(['ABC', 'ABC']);
    expect(overlapping(paintedOf(page(one, label(55, 51, { text: 'D' }))))).toEqual(['ABC | D']);
    expect(overlapping(paintedOf(page(one, label(50, 53))))).toEqual([]);
    expect(struckThrough(paintedOf(page(line(51), one)))).toEqual(['ABC']);
    expect(struckThrough(paintedOf(page(line(49.7), line(53.2), one)))).toEqual([]);
    expect(struckThrough(paintedOf(page(line(51), patch, one)))).toEqual([]);
    expect(struckThrough(paintedOf(page(patch, one, line(51))))).toEqual(['ABC']);
    // Upright, and moved with a group that cuts the line off before the text.
    expect(struckThrough(paintedOf(page(line(55), label(50, 50, { angleDeg: 90 }))))).toEqual([
      'ABC',
    ]);
    const group: PictureItem = {
      kind: 'group',
      at: [0, 20],
      clip: { minX: 0, minY: 0, maxX: 40, maxY: 100 },
      items: [line(31), label(50, 30)],
    };
    expect(struckThrough(paintedOf(page(group)))).toEqual([]);
  });
});
