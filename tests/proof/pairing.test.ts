import fc from 'fast-check';
import { expect, test } from 'vitest';
import { BoxGrid, spot } from '../../src/geometry/box-grid.ts';
import { distance, type Vec2 } from '../../src/geometry/vec2.ts';
import { paired } from '../../src/proof/pairing.ts';
import { fixedRuns } from '../helpers/extent.ts';

const place = fc.tuple(
  fc.oneof(fc.double({ min: 0, max: 20, noNaN: true }), fc.integer({ min: 0, max: 400 })),
  fc.integer({ min: 0, max: 3 }),
);

/** All pairs in one list, the nearest first. */
const atOnce = (from: readonly Vec2[], to: readonly Vec2[]): (number | undefined)[] => {
  const partners = from.map((p, i) => {
    const own = to[i];
    return own !== undefined && distance(p, own) < 0.01 ? i : undefined;
  });
  const pairs = from
    .flatMap((p, i) => to.map((q, j) => ({ i, j, d: distance(p, q) })))
    .sort((a, b) => a.d - b.d);
  for (const { i, j } of pairs)
    if (partners[i] === undefined && !partners.includes(j)) partners[i] = j;
  return partners;
};

test('holes are paired by nearness as if all pairs were compared at once', () => {
  fc.assert(
    fc.property(fc.array(place, { maxLength: 40 }), fc.array(place, { maxLength: 40 }), (a, b) => {
      const grid = new BoxGrid(b.map(spot));
      const found = paired(
        a.length,
        b.length,
        (i, j) => distance(a[i] as Vec2, b[j] as Vec2),
        (i, withinMm) => grid.near(spot(a[i] as Vec2), withinMm),
      );
      expect(found).toEqual(atOnce(a, b));
    }),
    { numRuns: fixedRuns(300) },
  );
});

test('thousands of holes that were written in another order find themselves again', () => {
  const made = Array.from({ length: 4000 }, (_, i): Vec2 => [
    (i % 80) * 12,
    Math.floor(i / 80) * 12,
  ]);
  const now = made.toReversed();
  const grid = new BoxGrid(now.map(spot));
  const found = paired(
    made.length,
    now.length,
    (i, j) => distance(made[i] as Vec2, now[j] as Vec2),
    (i, withinMm) => grid.near(spot(made[i] as Vec2), withinMm),
  );
  expect(found).toEqual(made.map((_, i) => made.length - 1 - i));
});
