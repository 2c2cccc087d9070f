import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Extents } from '../../src/geometry/extents.ts';
import { largestBetween } from '../../src/lay/sheets/clean-rectangle.ts';
import { fuzzRuns } from '../helpers/extent.ts';

const [LENGTH, WIDTH] = [12, 9];

/** Every rectangle on whole figures is tried: a witness that shares nothing with the sum. */
const tried = (boxes: readonly Extents[]): number => {
  let best = 0;
  for (let x = 0; x < LENGTH; x++)
    for (let y = 0; y < WIDTH; y++)
      for (let u = x + 1; u <= LENGTH; u++)
        for (let v = y + 1; v <= WIDTH; v++) {
          const isFree = boxes.every(
            ({ minX, minY, maxX, maxY }) => maxX <= x || minX >= u || maxY <= y || minY >= v,
          );
          if (isFree) best = Math.max(best, (u - x) * (v - y));
        }
  return best;
};

test('the largest rectangle between boxes is that of all that are tried', () => {
  const box = fc
    .tuple(
      fc.integer({ min: 0, max: LENGTH - 1 }),
      fc.integer({ min: 0, max: WIDTH - 1 }),
      fc.integer({ min: 1, max: 4 }),
      fc.integer({ min: 1, max: 4 }),
    )
    .map(([minX, minY, wide, high]) => ({
      minX,
      minY,
      maxX: Math.min(LENGTH, minX + wide),
      maxY: Math.min(WIDTH, minY + high),
    }));
  fc.assert(
    fc.property(fc.array(box, { maxLength: 10 }), (boxes) => {
      expect(largestBetween(boxes, LENGTH, WIDTH)).toBe(tried(boxes));
    }),
    { numRuns: fuzzRuns(200) },
  );
});
