import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { farthestApart, fitsTurned, reachAlong, turnToFit } from '../../src/geometry/fit.ts';
import { hullOf } from '../../src/geometry/convex-polygon.ts';
import { polygon, rectangle } from '../../src/geometry/loop.ts';
import { circle } from '../../src/geometry/shapes.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import { fuzzRuns } from '../helpers/extent.ts';

const mm = fc.integer({ min: 1, max: 3000 });

/**
 * A rectangle p x q (p >= q) fits into one of a x b (a >= b) if and only if p <= a and q <= b, or p
 * > a, q <= b and b >= (2 p q a + (p^2 - q^2) sqrt(p^2 + q^2 - a^2)) / (p^2 + q^2): W. B. Carver
 * 1957, as in J. E. Wetzel, Rectangles in rectangles, Mathematics Magazine 73 (2000), both cited
 * from memory.
 */
const carver = (p: number, q: number, a: number, b: number): number =>
  p <= a
    ? b - q
    : Math.min(
        b - q,
        b - (2 * p * q * a + (p * p - q * q) * Math.sqrt(p * p + q * q - a * a)) / (p * p + q * q),
      );

describe('a rectangle in a rectangle, in any turn', () => {
  test('as the condition of Carver says', () => {
    fc.assert(
      fc.property(mm, mm, mm, mm, (one, other, third, fourth) => {
        const [p, q, a, b] = [
          Math.max(one, other),
          Math.min(one, other),
          Math.max(third, fourth),
          Math.min(third, fourth),
        ];
        const spare = carver(p, q, a, b);
        fc.pre(Math.abs(spare) > 1e-6);
        const corners: Vec2[] = [
          [0, 0],
          [p, 0],
          [p, q],
          [0, q],
        ];
        expect([fitsTurned(corners, a, b), fitsTurned(corners, b, a)]).toEqual([
          spare > 0,
          spare > 0,
        ]);
      }),
      { numRuns: fuzzRuns(2000) },
    );
  });

  test('between whole degrees too, at the turn that is given', () => {
    // 2100 x 10 in 2000 x b: to the hair at the b of Carver, which lies between two whole degrees.
    const b = 2000 - carver(2100, 10, 2000, 2000) + 1e-6;
    const turn = turnToFit(rectangle(0, 0, 2100, 10), 2000, b);
    expect(turn).toBeDefined();
    expect(Number.isInteger(turn)).toBe(false);
    expect(turnToFit(rectangle(0, 0, 2100, 10), 2000, b - 1e-3)).toBeUndefined();
    expect([
      turnToFit(rectangle(0, 0, 100, 50), 100, 50),
      turnToFit(rectangle(0, 0, 50, 100), 100, 50),
      turnToFit(circle([0, 0], 25), 50, 50),
      turnToFit(circle([0, 0], 25), 49.9, 400),
    ]).toEqual([0, 90, 0, undefined]);
  });
});

const points = fc
  .array(fc.tuple(fc.integer({ min: -100, max: 100 }), fc.integer({ min: -100, max: 100 })), {
    minLength: 3,
    maxLength: 9,
  })
  .map((all) => all.map(([x, y]): Vec2 => [x, y]));

test('any convex polygon: what fits at one of ten thousand turns fits, and at the turn that is given it does', () => {
  fc.assert(
    fc.property(
      points,
      fc.integer({ min: 1, max: 300 }),
      fc.integer({ min: 1, max: 300 }),
      (all, length, width) => {
        const hull = hullOf(all);
        fc.pre(hull.length > 2);
        const spare = (rad: number): number =>
          Math.min(
            length - reachAlong(hull, [Math.cos(rad), Math.sin(rad)]),
            width - reachAlong(hull, [-Math.sin(rad), Math.cos(rad)]),
          );
        const best = Math.max(
          ...Array.from({ length: 10_000 }, (_, i) => spare((Math.PI * i) / 10_000)),
        );
        const turn = turnToFit(polygon(...hull), length, width);
        if (best >= 0) expect(turn).toBeDefined();
        // Between two of these turns no corner moves farther than the polygon is large.
        if (best < (-farthestApart(hull) * Math.PI) / 10_000) expect(turn).toBeUndefined();
        if (turn !== undefined) expect(spare((-turn * Math.PI) / 180)).toBeGreaterThan(-1e-6);
      },
    ),
    { numRuns: fuzzRuns(60) },
  );
});
