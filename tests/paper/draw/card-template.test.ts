import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  cardLayout,
  MARGIN_MM,
  OVERLAP_MM,
  tileName,
} from '../../../src/paper/draw/card-layout.ts';
import { textWidthMm } from '../../../src/paper/draw/text-width.ts';
import type { Extents } from '../../../src/geometry/extents.ts';
import type { PaperSize } from '../../../src/model/paper.ts';
import type { Label } from '../../../src/model/picture.ts';
import { loadFamily, make } from '../../helpers/check-template.ts';
import { fuzzRuns } from '../../helpers/extent.ts';
import { pagesOf, labelsOf } from './card.ts';

describe('how a blank is laid out', () => {
  const sizes = fc.record({
    width: fc.double({ min: 5, max: 3000, noNaN: true }),
    height: fc.double({ min: 5, max: 3000, noNaN: true }),
    paper: fc.constantFrom<PaperSize>('a4', 'a3', 'letter', { rollMm: 610 }),
  });

  test('every place of it lies on a page, neighbours share 10 mm, and nothing lies beyond what a printer prints', () => {
    fc.assert(
      fc.property(sizes, ({ width, height, paper }) => {
        const { page, live, columns, rows, tiles, isTurned } = cardLayout(width, height, paper);
        const [wide, tall] = isTurned ? [height, width] : [width, height];
        expect(tiles).toHaveLength(columns * rows);
        const [first] = tiles;
        for (const { column, row, shows } of tiles) {
          expect(live[0] + shows.maxX - shows.minX).toBeCloseTo(page.widthMm - MARGIN_MM, 6);
          expect(live[1] + shows.maxY - shows.minY).toBeCloseTo(page.heightMm - MARGIN_MM, 6);
          const right = tiles.find((t) => t.column === column + 1 && t.row === row);
          if (right !== undefined) expect(shows.maxX - right.shows.minX).toBeCloseTo(OVERLAP_MM, 6);
          const below = tiles.find((t) => t.column === column && t.row === row + 1);
          if (below !== undefined) expect(below.shows.maxY - shows.minY).toBeCloseTo(OVERLAP_MM, 6);
        }
        expect(first?.shows.minX).toBeLessThanOrEqual(-1 + 1e-6);
        expect(Math.max(...tiles.map((t) => t.shows.maxX))).toBeGreaterThanOrEqual(wide + 1 - 1e-6);
        expect(Math.min(...tiles.map((t) => t.shows.minY))).toBeLessThanOrEqual(-1 + 1e-6);
        expect(first?.shows.maxY).toBeGreaterThanOrEqual(tall + 1 - 1e-6);
      }),
      { numRuns: fuzzRuns(300) },
    );
  });

  test('across the paper where that takes fewer pages; a roll is as long as it must be', () => {
    expect(cardLayout(260, 150, 'a4')).toMatchObject({
      columns: 1,
      rows: 1,
      page: { widthMm: 297, heightMm: 210 },
    });
    expect(cardLayout(150, 255, 'a4')).toMatchObject({
      columns: 1,
      rows: 1,
      page: { widthMm: 210, heightMm: 297 },
    });
    expect(cardLayout(500, 2400, { rollMm: 610 })).toMatchObject({
      columns: 1,
      rows: 1,
      isTurned: false,
      page: { widthMm: 610 },
    });
    expect(cardLayout(2400, 500, { rollMm: 610 })).toMatchObject({
      columns: 1,
      rows: 1,
      isTurned: true,
      page: { widthMm: 610 },
    });
    // The less paper of two that are both one page.
    expect(cardLayout(300, 560, { rollMm: 610 })).toMatchObject({
      columns: 1,
      rows: 1,
      isTurned: true,
    });
    // 180 by 255 mm go on one sheet upright, and on no sheet as they lie.
    expect(cardLayout(255, 180, 'a4')).toMatchObject({
      columns: 1,
      rows: 1,
      isTurned: true,
      page: { widthMm: 210, heightMm: 297 },
    });
  });

  test('a blank that just fits makes one page, and a hundredth more makes two', () => {
    // 210 less 8 twice and 6 for the check line; 1 mm each way for the width of the lines.
    expect(cardLayout(186, 200, 'a4').tiles).toHaveLength(1);
    expect(cardLayout(186.01, 200, 'a4').tiles).toHaveLength(2);
  });

  test('no page of a roll is longer than 200 inches, which PDF readers take (ISO 32000-1, annex C.2)', () => {
    const { page, tiles } = cardLayout(500, 6000, { rollMm: 610 });
    expect([page.heightMm <= 200 * 25.4, tiles.length]).toEqual([true, 2]);
  });

  test('a plotter draws a blank of any size on one page', () => {
    const { page, tiles } = cardLayout(1200, 800, 'plotter');
    expect([tiles.length, page.widthMm > 800, page.heightMm > 800]).toEqual([1, true, true]);
  });

  test('pages are named by row and sheet, which no size of paper is called', () => {
    expect(
      [
        [0, 0],
        [1, 2],
        [25, 0],
        [26, 9],
        [27, 0],
      ].map(([column = 0, row = 0]) => tileName({ column, row })),
    ).toEqual([
      'row 1 sheet 1',
      'row 3 sheet 2',
      'row 1 sheet 26',
      'row 10 sheet 27',
      'row 1 sheet 28',
    ]);
  });
});

test.each(['a4', 'a3', 'letter', { rollMm: 200 }] as const)(
  'texts beside the drawing keep clear of each other and of the edge of the paper: %j',
  async (paper) => {
    for (const [family, inputs] of [
      [
        'tray',
        {
          name: 'a tray with a name as long as anyone is likely to give to one',
          length: 620,
          depth: 440,
          height: 45,
          material: 'dc01',
          thickness: 1.5,
        },
      ],
      ['strap', {}],
    ] as const) {
      const [example] = (await loadFamily(family)).examples;
      for (const part of await make(family, { ...example?.inputs, ...inputs })) {
        for (const page of pagesOf(part, paper)) {
          const boxes = labelsOf(page).map(boxOf);
          for (const [i, a] of boxes.entries()) {
            expect(
              [a.minX >= 4, a.minY >= 4, a.maxX <= page.widthMm - 4, a.maxY <= page.heightMm - 4],
              a.text,
            ).toEqual([true, true, true, true]);
            for (const b of boxes.slice(i + 1))
              expect(
                a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY,
                `${a.text} / ${b.text}`,
              ).toBe(false);
          }
        }
      }
    }
  },
);

/** From the base line to the top of the capitals; texts beside a drawing run level or up. */
const boxOf = ({
  at: [x, y],
  text,
  sizeMm,
  align = 'left',
  isBold,
  angleDeg = 0,
}: Label): Extents & { readonly text: string } => {
  const [long, high] = [textWidthMm(text, sizeMm, isBold), 0.72 * sizeMm];
  const start = { left: 0, middle: -long / 2, right: -long }[align];
  if (angleDeg === 90)
    return { text, minX: x - high, maxX: x, minY: y + start, maxY: y + start + long };
  expect(angleDeg).toBe(0);
  return { text, minX: x + start, maxX: x + start + long, minY: y, maxY: y + high };
};
