import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Extents } from '../../src/geometry/extents.ts';
import { type Loop, polygon, rectangle } from '../../src/geometry/loop.ts';
import { circle } from '../../src/geometry/shapes.ts';
import type { LaidSheet } from '../../src/model/laid.ts';
import { largestRectangle } from '../../src/stock/largest-rectangle.ts';
import { leftOf } from '../../src/stock/left.ts';
import { commonArea } from '../helpers/clipper.ts';
import { fuzzRuns } from '../helpers/extent.ts';

const SIDE = 60;
const areaOf = (box: Extents | undefined): number =>
  box === undefined ? 0 : (box.maxX - box.minX) * (box.maxY - box.minY);

const loopOf = ({ minX, minY, maxX, maxY }: Extents): Loop =>
  rectangle(minX, minY, maxX - minX, maxY - minY);

/** A sheet of 60 x 60 with shapes cut out of it, no gap kept. */
const cutSheet = (shapes: readonly Loop[], gapMm: number): readonly (Extents | undefined)[] => {
  const sheet: LaidSheet = {
    name: 'sheet-1',
    stock: { name: 'S', isRemnant: false, outline: rectangle(0, 0, SIDE, SIDE), holes: [] },
    material: 's275',
    thicknessMm: 3,
    gapMm,
    edgeMm: 0,
    parts: shapes.map((_, i) => ({
      name: `p${i}`,
      copy: 1,
      turnedOver: false,
      turnDeg: 0,
      xMm: 0,
      yMm: 0,
    })),
  };
  const outlines = new Map(shapes.map((outline, i) => [`p${i}`, { outline, holes: [] }]));
  return leftOf(sheet, outlines).map(largestRectangle);
};

/** Outlines are grown by a tenth for their chords, which upright ones do not need. */
const NO_CHORDS = -0.1;

const largest = (shapes: readonly Loop[], gapMm: number): Extents | undefined =>
  cutSheet(shapes, gapMm).reduce((a, b) => (areaOf(b) > areaOf(a) + 1e-6 ? b : a), undefined);

/** The largest of all boxes between some lines that nothing lies in, tried one by one. */
const byTrial = (
  xs: readonly number[],
  ys: readonly number[],
  isFree: (box: Extents) => boolean,
): number => {
  let most = 0;
  for (const minX of xs)
    for (const maxX of xs)
      for (const minY of ys)
        for (const maxY of ys) {
          const box = { minX, minY, maxX, maxY };
          if (maxX > minX && maxY > minY && areaOf(box) > most && isFree(box)) most = areaOf(box);
        }
  return most;
};

const CELL = fc.integer({ min: 0, max: SIDE - 1 });
const BOX = fc
  .tuple(CELL, CELL, fc.integer({ min: 1, max: 30 }), fc.integer({ min: 1, max: 30 }))
  .map(([x, y, w, h]): Extents => ({
    minX: x,
    minY: y,
    maxX: Math.min(SIDE, x + w),
    maxY: Math.min(SIDE, y + h),
  }));

test('among upright parts it is the largest of all, tried one by one', () => {
  fc.assert(
    fc.property(fc.array(BOX, { maxLength: 6 }), (boxes) => {
      const lines = (of: (box: Extents) => number[]): number[] => [
        ...new Set([0, SIDE, ...boxes.flatMap(of)]),
      ];
      const most = byTrial(
        lines((b) => [b.minX, b.maxX]),
        lines((b) => [b.minY, b.maxY]),
        (a) =>
          boxes.every(
            (b) => a.maxX <= b.minX || b.maxX <= a.minX || a.maxY <= b.minY || b.maxY <= a.minY,
          ),
      );
      expect(areaOf(largest(boxes.map(loopOf), NO_CHORDS))).toBeCloseTo(most, 3);
    }),
    { numRuns: fuzzRuns(60) },
  );
});

const TRIANGLE = fc
  .tuple(CELL, CELL, fc.integer({ min: 3, max: 20 }), fc.integer({ min: 3, max: 20 }), CELL)
  .map(([x, y, w, h, lean]) => polygon([x, y], [x + w, y + (lean % 7)], [x + (lean % w), y + h]));

test('among leaning and round parts it is empty, and as large as the best by trial within the step', () => {
  fc.assert(
    fc.property(
      fc.array(
        fc.oneof(
          TRIANGLE,
          fc.tuple(CELL, CELL).map(([x, y]) => circle([x, y], 9)),
        ),
        { minLength: 1, maxLength: 4 },
      ),
      (shapes) => {
        const found = largest(shapes, 0);
        const taken = (box: Extents): number =>
          shapes.reduce((sum, shape) => sum + commonArea(loopOf(box), shape), 0);
        if (found !== undefined) expect(taken(found)).toBeLessThan(1e-3);
        const lines = [0, 8, 17, 26, 33, 41, 52, SIDE];
        const most = byTrial(lines, lines, (box) => taken(box) < 1e-6);
        // Each of its four sides is at most a step of the grid, and a hair for chords, short.
        expect(areaOf(found)).toBeGreaterThan(most - 5 * SIDE);
      },
    ),
    { numRuns: fuzzRuns(15) },
  );
});

test('worked by hand: an L, a hole in the middle, a triangle, a disc', () => {
  const l = polygon([0, 0], [900, 0], [900, 200], [300, 200], [300, 600], [0, 600]);
  expect(largestRectangle({ outline: l, holes: [] })).toEqual({
    minX: 0,
    minY: 0,
    maxX: 900,
    maxY: 200,
  });
  const holed = { outline: rectangle(0, 0, 500, 300), holes: [rectangle(200, 100, 100, 100)] };
  expect(areaOf(largestRectangle(holed))).toBe(60_000);
  // Half the area of a right-angled triangle, corner on the middle of its long side.
  const triangle = polygon([0, 0], [400, 0], [0, 300]);
  expect(areaOf(largestRectangle({ outline: triangle, holes: [] }))).toBeCloseTo(30_000, -2);
  // The square in a circle has 2 r^2.
  const disc = areaOf(largestRectangle({ outline: circle([0, 0], 200), holes: [] }));
  expect(disc / 80_000).toBeGreaterThan(0.99);
  expect(disc / 80_000).toBeLessThanOrEqual(1);
  expect(
    largestRectangle({ outline: polygon([0, 0], [9, 0], [18, 0]), holes: [] }),
  ).toBeUndefined();
});

test('on a sheet full of round holes the edges of the sheet still count to the hair', () => {
  const holes = Array.from({ length: 150 }, (_, i) =>
    circle([60 + (i % 30) * 82, 60 + Math.floor(i / 30) * 227.5 + (i % 7) / 3], 30),
  );
  const found = largestRectangle({ outline: rectangle(0, 0, 2500, 1250), holes });
  expect([found?.minX, found?.maxX, found?.maxY]).toEqual([0, 2500, 1250]);
  // The highest hole ends at 60 + 910 + 2 + 30.
  expect(found?.minY).toBeGreaterThan(1001.9);
  expect(found?.minY).toBeLessThan(1004);
});
