import { describe, expect, test } from 'vitest';
import fc from 'fast-check';
import { areaOf, type CutPiece, liesWithin } from '../../src/cutting/cut-piece.ts';
import { cutOrder } from '../../src/cutting/cut-order.ts';
import { areLongNeighbours } from '../../src/cutting/long-neighbours.ts';
import { type Loop, rectangle } from '../../src/geometry/loop.ts';
import { circle } from '../../src/geometry/shapes.ts';
import { fixedRuns } from '../helpers/extent.ts';

const line = (loop: Loop) => ({ loop, item: { kind: 'loop', role: 'cut', loop } as const });
const piece = (outline: Loop, ...inner: readonly Loop[]): CutPiece => ({
  outline: line(outline),
  inner: inner.map(line),
});
const strip = (i: number, long = 400): CutPiece => piece(rectangle(10, 10 + 40 * i, long, 30));

/** Plates of all sizes on a grid, some with a hole, some with another plate in it. */
const anySheet: fc.Arbitrary<CutPiece[]> = fc
  .array(
    fc.record({
      wide: fc.integer({ min: 20, max: 190 }),
      high: fc.integer({ min: 20, max: 190 }),
      kind: fc.constantFrom('plate', 'hole', 'full'),
    }),
    { minLength: 1, maxLength: 9 },
  )
  .map((all) =>
    all.flatMap(({ wide, high, kind }, i): CutPiece[] => {
      const [x, y] = [10 + 200 * (i % 3), 10 + 200 * Math.floor(i / 3)];
      const outline = rectangle(x, y, wide, high);
      if (kind === 'plate') return [piece(outline)];
      const radius = Math.min(wide, high) / 3;
      const [cx, cy] = [x + wide / 2, y + high / 2];
      const ring = piece(outline, circle([cx, cy], radius));
      return kind === 'hole' ? [ring] : [ring, piece(circle([cx, cy], radius / 2))];
    }),
  );

describe('the order of cutting', () => {
  test('every cut once, holes before their outline, what lies in a hole before the hole', () => {
    fc.assert(
      fc.property(anySheet, fc.boolean(), (pieces, mayWarp) => {
        const { cuts, pieces: order } = cutOrder(pieces, mayWarp);
        const all = pieces.flatMap(({ outline, inner }) => [outline, ...inner]);
        expect(new Set(cuts)).toEqual(new Set(all));
        expect(cuts).toHaveLength(all.length);
        expect([...order].toSorted((a, b) => a - b)).toEqual(pieces.map((_, i) => i));
        for (const own of pieces)
          for (const hole of own.inner) {
            expect(cuts.indexOf(hole)).toBeLessThan(cuts.indexOf(own.outline));
            for (const other of pieces)
              if (other !== own && liesWithin(other, hole))
                expect(cuts.indexOf(other.outline)).toBeLessThan(cuts.indexOf(hole));
          }
      }),
      { numRuns: fixedRuns(200) },
    );
  });

  test('small pieces come before large ones where nothing warps', () => {
    fc.assert(
      fc.property(anySheet, (pieces) => {
        const areas = cutOrder(pieces, false).pieces.map((i) =>
          areaOf((pieces[i] as CutPiece).outline),
        );
        areas.forEach((area, i) => {
          for (const later of areas.slice(i)) expect(later).toBeGreaterThan(area / 4 - 1);
        });
      }),
      { numRuns: fixedRuns(200) },
    );
  });

  test('no long neighbours in a row where any other order is without them', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 0, max: 8 }), { minLength: 1, maxLength: 6 }),
        fc.array(fc.constantFrom(100, 300, 400), { minLength: 6, maxLength: 6 }),
        (places, lengths) => {
          const pieces = places.map((at, i) => strip(at, lengths[i]));
          const { inARow, pieces: order } = cutOrder(pieces, true);
          const inARowOf = (some: readonly number[]): number =>
            some.filter((b, k) => {
              const a = some[k - 1];
              return (
                a !== undefined &&
                areLongNeighbours(
                  (pieces[a] as CutPiece).outline.loop,
                  (pieces[b] as CutPiece).outline.loop,
                )
              );
            }).length;
          expect(inARow).toHaveLength(inARowOf(order));
          expect(inARow.length).toBe(
            Math.min(...permutations(pieces.map((_, i) => i)).map(inARowOf)),
          );
        },
      ),
      { numRuns: fixedRuns(60) },
    );
  });

  test('four strips side by side: the second, the fourth, the first, the third, or back', () => {
    const pieces = [0, 1, 2, 3].map((i) => strip(i));
    const { pieces: order, inARow } = cutOrder(pieces, true);
    expect(inARow).toEqual([]);
    expect([
      [1, 3, 0, 2],
      [2, 0, 3, 1],
    ]).toContainEqual(order);
    expect(cutOrder(pieces, false).pieces).toEqual([0, 1, 2, 3]);
    // Three of them leave no choice, and it is told.
    expect(cutOrder(pieces.slice(0, 3), true).inARow).toHaveLength(1);
  });

  test('neighbours are near over a long way: 30 mm, 150 mm', () => {
    const side = (gap: number, long: number) =>
      areLongNeighbours(rectangle(0, 0, 500, 50), rectangle(100, 50 + gap, long, 50));
    expect(side(10, 200)).toBe(true);
    expect(side(10, 100)).toBe(false);
    expect(side(29, 200)).toBe(true);
    expect(side(31, 200)).toBe(false);
  });

  test('the way between cuts is no longer than in the order in which they were given', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([0, 1, 2, 3, 4, 5, 6, 7], { minLength: 8 }), (places) => {
        const pieces = places.map((at) => piece(rectangle(100 * at, 10, 50, 50)));
        // In a row: from the sheet's corner to the last, and never back.
        expect(cutOrder(pieces, false).travelMm).toBeLessThan(700 + 20);
      }),
      { numRuns: fixedRuns(50) },
    );
  });
});

const permutations = (all: readonly number[]): number[][] =>
  all.length === 0
    ? [[]]
    : all.flatMap((one) =>
        permutations(all.filter((o) => o !== one)).map((rest) => [one, ...rest]),
      );
