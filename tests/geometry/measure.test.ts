import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { arcOf } from '../../src/geometry/arc.ts';
import type { Loop } from '../../src/geometry/loop.ts';
import { perimeter, signedArea } from '../../src/geometry/measure.ts';
import { published } from '../helpers/published.ts';

type Row = [number, number, number];
const asLoop = (rows: unknown): Loop => (rows as Row[]).map(([x, y, bulge]) => ({ x, y, bulge }));

test.for(['d6', 'd7'])('area and perimeter, published: %s', (id) => {
  const { given, expect: wanted, tolerance } = published('exchange', id);
  const loop = asLoop(given['polyline']);
  expect(Math.abs(signedArea(loop) - (wanted['area'] as number))).toBeLessThanOrEqual(tolerance);
  expect(Math.abs(perimeter(loop) - (wanted['perimeter'] as number))).toBeLessThanOrEqual(
    tolerance,
  );
});

test('a loop walked backwards has the opposite area and the same perimeter (published reversal, d8)', () => {
  const { given, expect: wanted, tolerance } = published('exchange', 'd8');
  const loop = asLoop(given['reverse']);
  const back = asLoop(wanted['result']);
  expect(Math.abs(signedArea(loop) + signedArea(back))).toBeLessThanOrEqual(tolerance);
  expect(Math.abs(perimeter(loop) - perimeter(back))).toBeLessThanOrEqual(tolerance);
});

test('a circular segment measures what flatten-js says', () => {
  const bulges = fc.double({ min: 0.01, max: 20, noNaN: true });
  fc.assert(
    fc.property(bulges, fc.double({ min: 1, max: 1000, noNaN: true }), (bulge, chord) => {
      const { centre, radius, startRad, sweepRad } = arcOf([0, 0], [chord, 0], bulge);
      const arc = new Flatten.Arc(
        new Flatten.Point(...centre),
        radius,
        startRad,
        startRad + sweepRad,
        true,
      );
      const shape = new Flatten.Polygon();
      shape.addFace([arc, new Flatten.Segment(arc.end, arc.start)]);
      const loop = [
        { x: 0, y: 0, bulge },
        { x: chord, y: 0, bulge: 0 },
      ];
      expect(Math.abs(signedArea(loop) / shape.area() - 1)).toBeLessThan(1e-9);
      expect(Math.abs(perimeter(loop) / (arc.length + chord) - 1)).toBeLessThan(1e-9);
    }),
  );
});

test('a flat segment has two thirds of rise times chord, and loses no digits where its formula changes', () => {
  // Limit of the area for flat arcs: the parabola of Archimedes.
  const area = (bulge: number): number =>
    signedArea([
      { x: 0, y: 0, bulge },
      { x: 10, y: 0, bulge: 0 },
    ]);
  expect(area(1e-6) / ((2 / 3) * (1e-6 * 5) * 10)).toBeCloseTo(1, 11);
  const switchOver = Math.sqrt(1e-3);
  const slope = (area(switchOver * 1.000001) - area(switchOver * 0.999999)) / (2e-6 * switchOver);
  expect(slope / 100).toBeCloseTo(1 / 3, 3);
  expect(area(switchOver * (1 + 1e-12)) / area(switchOver * (1 - 1e-12))).toBeCloseTo(1, 11);
});

test('the least bulge that a number can hold is as good as straight', () => {
  const almostStraight = [
    { x: 0, y: 0, bulge: Number.MIN_VALUE },
    { x: 0.3, y: 0, bulge: -Number.MIN_VALUE },
  ];
  expect(perimeter(almostStraight)).toBe(0.6);
  expect(signedArea(almostStraight)).toBe(0);
});

test('far from the origin an area keeps its digits, and nothing has none', () => {
  const square = [
    [0, 0],
    [10, 0],
    [10, 10],
    [0, 10],
  ].map(([x = 0, y = 0]) => ({ x: x + 1e8, y: y - 1e8, bulge: 0 }));
  expect(signedArea(square)).toBeCloseTo(100, 6);
  expect(signedArea([])).toBe(0);
  expect(perimeter([])).toBe(0);
});
