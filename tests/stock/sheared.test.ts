import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Extents, loopExtents } from '../../src/geometry/extents.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import type { LaidSheet } from '../../src/model/laid.ts';
import { shearedPieces, shearsFor } from '../../src/stock/sheared.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { laidPart, laidSheet, stock } from '../helpers/laid-sheets.ts';

const SIDE = fc.integer({ min: 100, max: 4000 });

const sheetOn = (length: number, width: number, bed: readonly [number, number]): LaidSheet => {
  const outline = rectangle(0, 0, length, width);
  const shears = shearsFor(outline, { length: bed[0], width: bed[1] });
  return laidSheet('s235-3-1', [], { stock: stock({ outline, shears }) });
};

describe('a sheet that is sheared so that it lies on a bed', () => {
  test('comes to pieces that all lie on it, and make up the whole sheet', () => {
    fc.assert(
      fc.property(SIDE, SIDE, SIDE, SIDE, (length, width, bedLength, bedWidth) => {
        const sheet = sheetOn(length, width, [bedLength, bedWidth]);
        const pieces = shearedPieces(sheet, new Map());
        const boxes = pieces.map((piece) => loopExtents(piece.stock.outline) as Extents);
        for (const { maxX, maxY } of boxes) {
          const [long, short] = [Math.max(maxX, maxY), Math.min(maxX, maxY)];
          expect(long).toBeLessThanOrEqual(Math.max(bedLength, bedWidth));
          expect(short).toBeLessThanOrEqual(Math.min(bedLength, bedWidth));
        }
        const area = boxes.reduce((sum, { maxX, maxY }) => sum + maxX * maxY, 0);
        expect(area).toBeCloseTo(length * width, 3);
        expect(new Set(pieces.map(({ name }) => name)).size).toBe(pieces.length);
      }),
      { numRuns: fuzzRuns(100) },
    );
  });

  test.each([
    ['lies on it as it is', [2500, 1250], [2500, 1250], undefined],
    ['lies on it across', [1250, 800], [800, 1250], undefined],
    ['is larger both ways', [3000, 1500], [1250, 1250], { x: [1250, 2500], y: [1250] }],
    ['is sheared to the largest pieces', [3000, 1500], [2500, 1250], { x: [2500], y: [1250] }],
    ['is sheared once where that will do', [2500, 1250], [1250, 1250], { x: [1250], y: [] }],
  ] as const)('%s', (_, [length, width], bed, shears) => {
    expect(sheetOn(length, width, bed).stock.shears).toEqual(shears);
  });

  test('each part goes with the piece that it lies on, from the corner of that', () => {
    const sheet = {
      ...sheetOn(3000, 1500, [1250, 1250]),
      parts: [laidPart('lid', 1300, 20), laidPart('lid', 100, 1300, { copy: 2 })],
    };
    const lid = { outline: rectangle(0, 0, 90, 60), holes: [] };
    const on = shearedPieces(sheet, new Map([['lid', lid]])).flatMap(({ name, parts }) =>
      parts.map(({ copy, xMm, yMm }) => [name, copy, xMm, yMm]),
    );
    // Pieces are lettered from the lower left on, three in a row.
    expect(on).toEqual([
      ['s235-3-1-b', 1, 50, 20],
      ['s235-3-1-d', 2, 100, 50],
    ]);
  });
});
