import fc from 'fast-check';
import makerjs from 'makerjs';
import { describe, expect, test } from 'vitest';
import { arcOf } from '../../src/geometry/arc.ts';
import { hullOfCircles, type Spot } from '../../src/geometry/hull-of-circles.ts';
import type { Loop } from '../../src/geometry/loop.ts';
import { perimeter, signedArea } from '../../src/geometry/measure.ts';
import { pieceOf, pointOn } from '../../src/geometry/piece.ts';
import { selfCrossing } from '../../src/geometry/self-crossing.ts';
import { toFlatten } from '../helpers/flatten-js.ts';
import { fuzzRuns } from '../helpers/extent.ts';

const spot = (x: number, y: number, radius: number): Spot => ({ centre: [x, y], radius });

const SAMPLES = 720;

/** How far a loop reaches in a direction, found from points of it and the circles of its arcs. */
const reachOf = (loop: Loop, rad: number): number =>
  Math.max(
    ...loop.map((v, i) => {
      const piece = pieceOf(loop, i);
      const flat = v.x * Math.cos(rad) + v.y * Math.sin(rad);
      if (v.bulge === 0) return flat;
      const { centre, radius, startRad, sweepRad } = arcOf(piece.from, piece.to, v.bulge);
      const turn = rad - startRad - 2 * Math.PI * Math.floor((rad - startRad) / (2 * Math.PI));
      return turn <= sweepRad
        ? centre[0] * Math.cos(rad) + centre[1] * Math.sin(rad) + radius
        : flat;
    }),
  );

/** By definition of the support function of a hull: as far as the farthest of the circles. */
const expectReach = (loop: Loop, spots: readonly Spot[]): void => {
  for (let k = 0; k < SAMPLES; k++) {
    const rad = (2 * Math.PI * (k + 0.3)) / SAMPLES;
    const wanted = Math.max(
      ...spots.map(
        ({ centre, radius }) => centre[0] * Math.cos(rad) + centre[1] * Math.sin(rad) + radius,
      ),
    );
    expect(Math.abs(reachOf(loop, rad) - wanted)).toBeLessThan(2e-7);
  }
};

/** The hull of points close together round every circle, by a library of others (a Graham scan). */
const hullArea = (spots: readonly Spot[]): number => {
  const points = spots.flatMap(({ centre, radius }) =>
    Array.from({ length: SAMPLES }, (_, k): [number, number] => [
      centre[0] + radius * Math.cos((2 * Math.PI * k) / SAMPLES),
      centre[1] + radius * Math.sin((2 * Math.PI * k) / SAMPLES),
    ]),
  );
  const found: { hullPoints?: makerjs.IPoint[] } = {};
  makerjs.measure.isPointArrayClockwise(points, found);
  const ring = (found.hullPoints ?? []).map((p) => ({ x: p[0] ?? NaN, y: p[1] ?? NaN, bulge: 0 }));
  return Math.abs(signedArea(ring));
};

/**
 * One closed way, counter-clockwise, never turning right, and smooth but for points of no radius.
 */
const expectConvex = (loop: Loop): void => {
  // No arc is more than a half circle: a longer one would be known by its ends badly.
  expect(loop.every((v) => v.bulge >= 0 && v.bulge < 1 + 1e-9)).toBe(true);
  expect(signedArea(loop)).toBeGreaterThan(0);
  expect(toFlatten(loop).isValid()).toBe(true);
  const points = loop.flatMap((_, i) =>
    [0, 0.25, 0.5, 0.75].map((t) => pointOn(pieceOf(loop, i), t)),
  );
  points.forEach(([x, y], i) => {
    const [[bx, by], [cx, cy]] = [1, 2].map(
      (k) => points[(i + k) % points.length] as readonly [number, number],
    ) as [readonly [number, number], readonly [number, number]];
    expect((bx - x) * (cy - by) - (by - y) * (cx - bx)).toBeGreaterThan(-1e-6);
  });
};

describe('the hull of circles', () => {
  test('of one is the circle', () => {
    expect(hullOfCircles([spot(3, 4, 5)])).toEqual([
      { x: -2, y: 4, bulge: 1 },
      { x: 8, y: 4, bulge: 1 },
    ]);
  });

  test('of a circle with others inside it, one touching from inside, is the circle', () => {
    for (const inner of [spot(0, 0, 3), spot(4, 0, 6), spot(4, 0, 6 - 1e-8), spot(0, 0, 10)]) {
      const loop = hullOfCircles([inner, spot(0, 0, 10)]);
      expect(signedArea(loop)).toBeCloseTo(Math.PI * 100, 6);
      expect(perimeter(loop)).toBeCloseTo(Math.PI * 20, 6);
    }
  });

  // A belt round two pulleys: crossed neither way, straights sqrt(d^2 - (R - r)^2), wrap pi +- 2
  // asin((R - r) / d) (belt length formula of any table of machine elements).
  test.each([
    [100, 30, 10],
    [100, 30, 30],
    [25, 20, 4.9],
    [20.001, 30, 10],
    [20.000001, 30, 10],
  ])('of two, %d apart, radii %d and %d, is an open belt', (d, big, small) => {
    const loop = hullOfCircles([spot(-3, 7, big), spot(-3 + d, 7, small)]);
    const lean = Math.asin((big - small) / d);
    const belt =
      2 * Math.sqrt(d * d - (big - small) ** 2) +
      big * (Math.PI + 2 * lean) +
      small * (Math.PI - 2 * lean);
    expect(perimeter(loop)).toBeCloseTo(belt, 6);
    expect(loop.filter((v) => v.bulge === 0)).toHaveLength(2);
    expectReach(loop, [spot(-3, 7, big), spot(-3 + d, 7, small)]);
  });

  // Steiner's formulas for a convex polygon and a distance r round it: area A + P r + pi r^2, way P
  // + 2 pi r.
  test('of equal circles is the polygon of their centres, widened', () => {
    const spots = [spot(0, 0, 8), spot(90, 0, 8), spot(40, 20, 8), spot(70, 60, 8), spot(0, 60, 8)];
    const loop = hullOfCircles(spots);
    const ways = 90 + Math.hypot(20, 60) + 70 + 60;
    expect(perimeter(loop)).toBeCloseTo(ways + 16 * Math.PI, 9);
    expect(signedArea(loop)).toBeCloseTo((60 * (90 + 70)) / 2 + 8 * ways + 64 * Math.PI, 9);
    expect(loop).toHaveLength(8);
  });

  test('with centres on one line goes there and back, past those between', () => {
    const loop = hullOfCircles([
      spot(50, 25, 5),
      spot(0, 0, 5),
      spot(20, 10, 5),
      spot(100, 50, 5),
      spot(40, 20, 2),
    ]);
    expect(loop).toHaveLength(4);
    expect(perimeter(loop)).toBeCloseTo(2 * Math.hypot(100, 50) + 10 * Math.PI, 9);
  });

  test('three on one common tangent leave one straight line', () => {
    const loop = hullOfCircles([spot(0, 10, 10), spot(40, 5, 5), spot(100, 20, 20)]);
    expect(loop.filter((v) => v.bulge === 0)).toHaveLength(2);
    expectReach(loop, [spot(0, 10, 10), spot(40, 5, 5), spot(100, 20, 20)]);
  });

  test('of points without radius is their polygon', () => {
    const loop = hullOfCircles([spot(0, 0, 0), spot(60, 0, 0), spot(20, 10, 0), spot(0, 40, 0)]);
    expect(loop).toHaveLength(3);
    expect(loop.every((v) => v.bulge === 0)).toBe(true);
    expect(signedArea(loop)).toBeCloseTo(1200, 9);
  });

  test.each([1, -1])('a circle that all but touches a common tangent, %d', (side) => {
    for (const by of [1e-2, 1e-5, 1e-8, 1e-12]) {
      const spots = [spot(0, 0, 20), spot(100, 0, 20), spot(30, 13 + side * by, 7)];
      const loop = hullOfCircles(spots);
      expectReach(loop, spots);
      expect(selfCrossing(loop)).toBeUndefined();
    }
  });

  test('round nothing there is none', () => {
    expect(() => hullOfCircles([])).toThrow(RangeError);
  });
});

const tenths = (min: number, max: number) =>
  fc.integer({ min: min * 10, max: max * 10 }).map((n) => n / 10);
const aSpot = fc.record({
  centre: fc.tuple(tenths(-200, 200), tenths(-200, 200)),
  radius: fc.oneof(fc.constantFrom(5, 12), tenths(1, 60)),
});
const spotsOf = fc.array(aSpot, { minLength: 1, maxLength: 12 });

describe('the hull of random circles', () => {
  test('reaches as far as they do in every direction, turns left only, and has the area a hull of points finds', () => {
    fc.assert(
      fc.property(spotsOf, (spots) => {
        const loop = hullOfCircles(spots);
        expectConvex(loop);
        expectReach(loop, spots);
        // Chords of half a degree leave out 1.3e-5 of a circle.
        const area = hullArea(spots);
        expect(signedArea(loop)).toBeGreaterThanOrEqual(area - 1e-6);
        expect(signedArea(loop) / area).toBeLessThan(1 + 4e-5);
      }),
      { numRuns: fuzzRuns(60), seed: 1 },
    );
  });

  test('does not depend on their order, nor on one given twice, and turns with them', () => {
    fc.assert(
      fc.property(spotsOf, fc.integer({ min: 1, max: 359 }), (spots, deg) => {
        const [area, way] = [signedArea(hullOfCircles(spots)), perimeter(hullOfCircles(spots))];
        const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
        const turned = spots.map(({ centre: [x, y], radius }) =>
          spot(c * x - s * y, s * x + c * y, radius),
        );
        for (const others of [spots.toReversed(), [...spots, ...spots], turned]) {
          const loop = hullOfCircles(others);
          expect(Math.abs(signedArea(loop) - area)).toBeLessThan(1e-4);
          expect(Math.abs(perimeter(loop) - way)).toBeLessThan(1e-4);
          expect(selfCrossing(loop)).toBeUndefined();
        }
      }),
      { numRuns: fuzzRuns(60), seed: 2 },
    );
  });
});
