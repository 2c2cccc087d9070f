import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arcOf } from '../../src/geometry/arc.ts';
import { gapMiddle, loopGap, pointGap } from '../../src/geometry/gap.ts';
import { isInside } from '../../src/geometry/inside.ts';
import { type Loop, rectangle } from '../../src/geometry/loop.ts';
import { circle, obround } from '../../src/geometry/shapes.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import { fixedRuns } from '../helpers/extent.ts';

/**
 * The same curve for @flatten-js/core, which computes with true arcs and shares no code with this
 * project.
 */
const pieces = (loop: Loop): (Flatten.Segment | Flatten.Arc)[] =>
  loop.map((v, i) => {
    const next = loop[(i + 1) % loop.length] ?? v;
    if (v.bulge === 0)
      return new Flatten.Segment(new Flatten.Point(v.x, v.y), new Flatten.Point(next.x, next.y));
    const { centre, radius, startRad, sweepRad } = arcOf([v.x, v.y], [next.x, next.y], v.bulge);
    return new Flatten.Arc(
      new Flatten.Point(...centre),
      radius,
      startRad,
      startRad + sweepRad,
      sweepRad > 0,
    );
  });

const outsideGap = (a: Loop, b: Loop): number =>
  Math.min(...pieces(a).flatMap((p) => pieces(b).map((q) => p.distanceTo(q)[0])));

/** A star-shaped loop about a centre, its pieces straight or bowed either way. */
const blob = (at: Vec2) =>
  fc
    .array(
      fc.record({
        radius: fc.double({ min: 8, max: 20, noNaN: true }),
        bulge: fc.constantFrom(0, 0, 0.3, -0.2, 0.1),
      }),
      { minLength: 3, maxLength: 8 },
    )
    .map((corners): Loop =>
      corners.map(({ radius, bulge }, i) => {
        const turn = (2 * Math.PI * i) / corners.length;
        return { x: at[0] + radius * Math.cos(turn), y: at[1] + radius * Math.sin(turn), bulge };
      }),
    );

describe('against @flatten-js/core', () => {
  test('the gap between two curves', () => {
    fc.assert(
      fc.property(blob([0, 0]), blob([35, 10]), (a, b) => {
        const gap = outsideGap(a, b);
        expect(loopGap(a, b)).toBeCloseTo(gap, 6);
        expect(loopGap(a, b, 5)).toBeCloseTo(Math.min(5, gap), 6);
      }),
      { numRuns: fixedRuns(300) },
    );
  });

  test('the gap from a point, and whether it lies inside', () => {
    const coordinate = fc.double({ min: -25, max: 25, noNaN: true });
    fc.assert(
      fc.property(blob([0, 0]), coordinate, coordinate, (loop, x, y) => {
        const point = new Flatten.Point(x, y);
        const gap = Math.min(...pieces(loop).map((piece) => point.distanceTo(piece)[0]));
        expect(pointGap([x, y], loop)).toBeCloseTo(gap, 6);
        // The other side takes a ray for touching a vertex within a few millionths; such points are
        // asked further below.
        fc.pre(loop.every((v) => Math.abs(v.y - y) > 1e-3));
        if (gap > 1e-3)
          expect(isInside(loop, [x, y])).toBe(new Flatten.Polygon(pieces(loop)).contains(point));
      }),
      { numRuns: fixedRuns(500) },
    );
  });
});

describe('places where a ray or a chord is met at its end', () => {
  test.each<[Vec2, boolean]>([
    [[10, 10], true],
    [[0.5, 10], true],
    [[-0.5, 10], false],
    [[10, 19.5], true],
    [[10, 20.5], false],
  ])('circle about (10, 10), radius 10: %j', (point, inside) => {
    expect(isInside(circle([10, 10], 10), point)).toBe(inside);
  });

  test.each([-4, 0, 4])('a slot holds the ends of its half circles, level with %d', (y) => {
    const slot = obround([0, 0], 10, 30, 0);
    expect(isInside(slot, [10, y])).toBe(true);
    expect(isInside(slot, [-10, y])).toBe(true);
    expect(isInside(slot, [16, y])).toBe(false);
    expect(isInside(slot, [-16, y])).toBe(false);
  });

  test('concentric circles keep the difference of their radii, crossing ones none', () => {
    expect(loopGap(circle([0, 0], 10), circle([0, 0], 4))).toBeCloseTo(6, 12);
    expect(loopGap(circle([0, 0], 10), circle([10, 0], 4))).toBe(0);
    expect(loopGap(circle([0, 0], 5), rectangle(-20, -20, 40, 21))).toBe(0);
    expect(loopGap(circle([0, 0], 5), rectangle(-20, -20, 40, 40))).toBeCloseTo(15, 12);
  });
});

test('the middle of a gap lies half of it from either curve', () => {
  fc.assert(
    fc.property(blob([0, 0]), blob([55, 11]), (a, b) => {
      const gap = loopGap(a, b);
      const middle = gapMiddle(a, b);
      expect(pointGap(middle, a)).toBeCloseTo(gap / 2, 6);
      expect(pointGap(middle, b)).toBeCloseTo(gap / 2, 6);
    }),
    { numRuns: fixedRuns(300), seed: 41 },
  );
});
