import { expect, test } from 'vitest';
import { cosDeg, sinDeg } from '../../src/geometry/degrees.ts';
import { loopExtents } from '../../src/geometry/extents.ts';
import { perimeter, signedArea } from '../../src/geometry/measure.ts';
import { circle, obround } from '../../src/geometry/shapes.ts';

test('a slot 8 x 20 is 8 wide and 20 long overall', () => {
  const slot = obround([30, 40], 8, 20, 0);
  expect(loopExtents(slot)).toEqual({ minX: 20, minY: 36, maxX: 40, maxY: 44 });
  // A rectangle 12 x 8 and two half circles (table of plane figures).
  expect(signedArea(slot)).toBeCloseTo(96 + 16 * Math.PI, 9);
  expect(perimeter(slot)).toBeCloseTo(24 + 8 * Math.PI, 9);
});

test('turned by 90 degrees it stands upright exactly, by 30 it points that way', () => {
  expect(loopExtents(obround([0, 0], 8, 20, 90))).toEqual({
    minX: -4,
    minY: -10,
    maxX: 4,
    maxY: 10,
  });
  // End centres 6 away, at 30 degrees counter-clockwise.
  expect(loopExtents(obround([0, 0], 8, 20, 30))?.maxX).toBeCloseTo(
    6 * Math.cos(Math.PI / 6) + 4,
    9,
  );
});

test('a circle runs counter-clockwise', () => {
  expect(signedArea(circle([5, 5], 10))).toBeCloseTo(100 * Math.PI, 9);
});

test('sine and cosine are exact at quarter turns', () => {
  expect([-90, 0, 90, 180, 270, 360, 450].map(sinDeg)).toEqual([-1, 0, 1, 0, -1, 0, 1]);
  expect([-90, 0, 90, 180, 270].map(cosDeg)).toEqual([0, 1, 0, -1, 0]);
  expect(sinDeg(30)).toBeCloseTo(0.5, 15);
});
