import { describe, expect, test } from 'vitest';
import { sheetCuts } from '../../../src/cutting/sheet-cuts.ts';
import { cutLengthMm, usedPercent } from '../../../src/cutting/used.ts';
import type { Extents } from '../../../src/geometry/extents.ts';
import type { LaidSheet } from '../../../src/model/laid.ts';
import type { Picture } from '../../../src/model/picture.ts';
import { laidPages } from '../../../src/paper/laid/laid-pages.ts';
import type { LaidPicture } from '../../../src/paper/laid/laid-picture.ts';
import { printedIn, type PrintUnit } from '../../../src/text/printed.ts';
import { inTurns } from '../../helpers/extent.ts';
import { offPage, overlapping, paintedOf, struckThrough } from '../../helpers/legible.ts';
import { DRAWINGS, MIXED, ONE, REMNANT, SIXTY, SMALL } from '../../helpers/laid-sheets.ts';

const pictureOf = (sheet: LaidSheet, unit: PrintUnit, clean?: Extents): LaidPicture => {
  const cuts = sheetCuts(sheet, DRAWINGS, { mayWarp: false });
  return {
    cuts,
    job: 'Vineyard cart',
    material: 'S235JR, 3 mm',
    usedPercent: usedPercent(sheet, DRAWINGS),
    cutLengthMm: cutLengthMm(cuts),
    clean,
    cutter: 'plasma',
    mayWarp: true,
    cautions: ['sharp edges', 'eyes', 'fume of steel'],
    paperMark: { part: sheet.name, file: `${sheet.name}.dxf`, sha: '1a2b3c4d5e6f' },
    date: '',
    print: printedIn(unit),
  };
};

const textsOf = (pages: readonly Picture[]): string[] =>
  pages.flatMap((page) => paintedOf(page).texts.map(({ label }) => label.text));

const WAYS = [
  ['a4', 'mm'],
  ['letter', 'inch'],
  ['a3', 'mm'],
] as const;

/** Least letters of a paper, mm (ISO 3098, from memory). */
const LEAST_LETTERS_MM = 2;

describe.each([
  ['odd parts, some in the hole of another', MIXED, { minX: 800, minY: 0, maxX: 1000, maxY: 500 }],
  ['a remnant that was cut into', REMNANT, { minX: 0, minY: 200, maxX: 200, maxY: 320 }],
  ['sixty parts', SIXTY, { minX: 0, minY: 640, maxX: 2000, maxY: 1000 }],
  ['one part', ONE, undefined],
  ['forty small ones', SMALL, undefined],
])('the picture of a sheet: %s', (_, sheet, clean) => {
  test.each(inTurns(WAYS, sheet.parts.length, 3))(
    'every text can be read on %s in %s, every part has its number and its row',
    (paper, unit) => {
      const picture = pictureOf(sheet, unit, clean);
      const all = laidPages(picture, paper).map((page) => ({ page, painted: paintedOf(page) }));
      for (const { page, painted } of all) {
        expect(offPage(page, painted)).toEqual([]);
        expect(overlapping(painted)).toEqual([]);
        expect(struckThrough(painted)).toEqual([]);
        const smallest = Math.min(...painted.texts.map((t) => t.label.sizeMm));
        expect(smallest).toBeGreaterThanOrEqual(LEAST_LETTERS_MM);
      }
      const labels = all.map(({ painted }) => painted.texts.map(({ label }) => label));
      const texts = labels.flat().map(({ text }) => text);
      const bold = (labels[0] ?? []).filter(({ isBold }) => isBold === true);
      const numbers = bold.map(({ text }) => text.split(' ')[0]);
      const { blanks } = picture.cuts;
      for (const { name } of blanks) expect(texts).toContain(name);
      // Where parts are smaller than their figures and crowd each other, a few are in the table alone.
      const missing = blanks.filter(({ number }) => !numbers.includes(String(number)));
      expect(missing.length).toBeLessThanOrEqual(sheet === SMALL ? blanks.length / 10 : 0);
    },
  );
});

describe('the sizes on the picture of a sheet', () => {
  test('run from its lower left corner to the box of each part, on two of its edges', () => {
    const texts = textsOf(laidPages(pictureOf(REMNANT, 'mm')));
    // The bracket at 20, 20; the gusset at 300, 40; washers at 20 and 68, 140; the remnant's own size.
    expect(texts).toEqual(
      expect.arrayContaining([
        '20 (1, 4)',
        '68 (2)',
        '300 (3)',
        '480',
        '20 (4)',
        '40 (3)',
        '140 (1, 2)',
        '320',
      ]),
    );
  });

  test('stand in the table alone where a row of them would be crowded', () => {
    const texts = textsOf(laidPages(pictureOf(SMALL, 'mm')));
    expect(texts.filter((text) => /^\d+(\.\d)? \(/.test(text))).toEqual([]);
    expect(texts.join(' ')).toContain('Sizes, in the table,');
  });

  test('a part that is turned over says so', () => {
    const texts = textsOf(laidPages(pictureOf(MIXED, 'mm')));
    expect(texts.filter((text) => text === 'turned over')).toHaveLength(2);
  });
});
