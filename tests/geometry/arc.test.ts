import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  arcOf,
  bulgeOf,
  halfBulge,
  middleOf,
  pointAfterTurn,
  sweepOf,
} from '../../src/geometry/arc.ts';
import { distance, type Vec2 } from '../../src/geometry/vec2.ts';
import { published } from '../helpers/published.ts';

const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min, max, noNaN: true });
const point = fc.tuple(between(-1000, 1000), between(-1000, 1000));
const bulge = fc.oneof(between(1e-4, 1), between(1, 50)).chain((b) => fc.constantFrom(b, -b));
const anArc = fc
  .record({ from: point, to: point, bulge })
  .filter(({ from, to }) => distance(from, to) > 0.1);

describe('bulge of a sweep, published values', () => {
  test.for(['d1', 'd2', 'd3'])('%s', (id) => {
    const { given, expect: wanted, tolerance } = published('exchange', id);
    const sweep =
      ((given['sweep_deg'] as number) * Math.PI * (given['dir'] === 'cw' ? -1 : 1)) / 180;
    expect(Math.abs(bulgeOf(sweep) - (wanted['bulge'] as number))).toBeLessThanOrEqual(tolerance);
    expect(sweepOf(wanted['bulge'] as number)).toBeCloseTo(sweep, 6);
  });
});

test('radius and rise of a published arc (d5)', () => {
  const { given, expect: wanted, tolerance } = published('exchange', 'd5');
  const to: Vec2 = [given['chord'] as number, 0];
  const b = given['bulge'] as number;
  expect(Math.abs(arcOf([0, 0], to, b).radius - (wanted['radius'] as number))).toBeLessThanOrEqual(
    tolerance,
  );
  // Counter-clockwise from left to right runs below the chord.
  expect(Math.abs(-middleOf([0, 0], to, b)[1] - (wanted['sagitta'] as number))).toBeLessThanOrEqual(
    tolerance,
  );
});

test('an arc drawn by flatten-js from centre, radius and angles ends where it should and has the same middle', () => {
  fc.assert(
    fc.property(anArc, ({ from, to, bulge: b }) => {
      const { centre, radius, startRad, sweepRad } = arcOf(from, to, b);
      const arc = new Flatten.Arc(
        new Flatten.Point(...centre),
        radius,
        startRad,
        startRad + sweepRad,
        sweepRad > 0,
      );
      const accuracy = 1e-8 * Math.max(1, radius);
      expect(distance([arc.start.x, arc.start.y], from)).toBeLessThan(accuracy);
      expect(distance([arc.end.x, arc.end.y], to)).toBeLessThan(accuracy);
      const middle = middleOf(from, to, b);
      expect(distance([arc.middle().x, arc.middle().y], middle)).toBeLessThan(accuracy);
      expect(distance(pointAfterTurn(from, to, b, Math.abs(sweepRad) / 2), middle)).toBeLessThan(
        accuracy,
      );
    }),
  );
});

test('both halves of an arc lie on its circle and turn half as far', () => {
  fc.assert(
    fc.property(anArc, ({ from, to, bulge: b }) => {
      const whole = arcOf(from, to, b);
      const half = arcOf(from, middleOf(from, to, b), halfBulge(b));
      expect(Math.abs(halfBulge(b))).toBeLessThanOrEqual(1);
      expect(half.sweepRad).toBeCloseTo(whole.sweepRad / 2, 9);
      expect(distance(half.centre, whole.centre)).toBeLessThan(1e-8 * Math.max(1, whole.radius));
    }),
  );
});

test('an arc too flat to see its centre still passes its points to the last digits', () => {
  const middle = pointAfterTurn([0, 0], [100, 0], 1e-9, sweepOf(1e-9) / 2);
  // Rise b c / 2, by the definition of the bulge.
  expect(middle[0]).toBeCloseTo(50, 12);
  expect(middle[1]).toBeCloseTo(-5e-8, 16);
});

test('a straight piece has no centre', () => {
  expect(() => arcOf([0, 0], [1, 0], 0)).toThrow('bulge 0');
});
