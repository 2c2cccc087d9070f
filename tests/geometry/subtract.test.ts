import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cosDeg, sinDeg } from '../../src/geometry/degrees.ts';
import { loopGap } from '../../src/geometry/gap.ts';
import { type Loop, polygon, rectangle } from '../../src/geometry/loop.ts';
import { signedArea } from '../../src/geometry/measure.ts';
import { moveLoop } from '../../src/geometry/motion2.ts';
import { piecesOf } from '../../src/geometry/piece.ts';
import { circle, obround } from '../../src/geometry/shapes.ts';
import { subtract } from '../../src/geometry/subtract.ts';
import { distance, type Vec2 } from '../../src/geometry/vec2.ts';
import { commonArea } from '../helpers/clipper.ts';
import { fuzzRuns } from '../helpers/extent.ts';

const taken = (loop: Loop, shape: Loop): Loop[] => {
  const left = subtract(loop, shape, ([x, y], bulge) => ({ x, y, bulge }));
  if (left === undefined) throw new Error('nothing closes');
  return left;
};

const areasOf = (loops: readonly Loop[]): number[] => loops.map(signedArea);
const diamond = ([x, y]: Vec2, r: number): Loop =>
  polygon([x - r, y], [x, y - r], [x + r, y], [x, y + r]);

describe('a shape taken out of a loop', () => {
  const sheet = rectangle(0, 0, 40, 20);

  test.each<[string, Loop, Loop, readonly number[]]>([
    ['a corner', sheet, rectangle(-5, -5, 15, 15), [700]],
    ['a notch that ends on the edge', sheet, rectangle(10, 0, 10, 10), [700]],
    [
      'a notch as deep as the sheet, flush at both ends',
      sheet,
      rectangle(10, 0, 10, 20),
      [200, 400],
    ],
    ['a corner, flush with both of its edges', sheet, rectangle(0, 0, 10, 10), [700]],
    ['one that runs along an edge outside', sheet, rectangle(5, -5, 10, 5), [800]],
    ['one that shares a corner alone', sheet, rectangle(40, 20, 5, 5), [800]],
    ['one that is the loop itself', sheet, sheet, []],
    ['one that holds the loop', sheet, rectangle(-5, -5, 60, 60), []],
    ['one inside that touches nothing', sheet, rectangle(5, 5, 10, 10), [800]],
    ['one inside with a corner on the edge', sheet, diamond([20, 5], 5), [750]],
    ['one with corners on two edges, which cut in two', sheet, diamond([20, 10], 10), [300, 300]],
    ['a circle tangent to the edge inside', sheet, circle([20, 5], 5), [800 - 25 * Math.PI]],
    ['a circle tangent to the edge outside', sheet, circle([20, -5], 5), [800]],
    ['a circle about a corner', sheet, circle([0, 0], 5), [800 - (25 * Math.PI) / 4]],
    ['half a circle, its middle on the edge', sheet, circle([20, 0], 5), [800 - 12.5 * Math.PI]],
    [
      'a slot end that lies on the arc of a slot',
      obround([0, 0], 10, 40, 0),
      circle([15, 0], 5),
      [300 + 25 * Math.PI - 25 * Math.PI],
    ],
    ['a circle out of itself', circle([3, 4], 5), circle([3, 4], 5), []],
    ['a circle that touches a circle', circle([0, 0], 5), circle([10, 0], 5), [25 * Math.PI]],
    [
      'a circle that touches a circle inside',
      circle([0, 0], 10),
      circle([5, 0], 5),
      [75 * Math.PI],
    ],
  ])('%s', (_, loop, shape, expected) => {
    for (const deg of [0, 30, 77.7, 180]) {
      const turn = { c: cosDeg(deg), s: sinDeg(deg), x: 1234.56, y: -78.9 };
      const found = areasOf(taken(moveLoop(turn, loop), moveLoop(turn, shape)));
      expect(found).toHaveLength(expected.length);
      found
        .toSorted((a, b) => a - b)
        .forEach((area, i) => expect(area).toBeCloseTo(expected[i] as number, 6));
    }
  });

  test('edges stay whole where they are only touched, and keep their own data', () => {
    const loop = sheet.map((v, i) => ({ ...v, name: `edge ${i}` }));
    expect(
      subtract(loop, circle([20, -5], 5), () => ({ ...(loop[0] as (typeof loop)[0]) })),
    ).toEqual([loop]);
    const [left] = subtract(loop, rectangle(10, 15, 10, 10), ([x, y], bulge) => ({
      x,
      y,
      bulge,
      name: 'cut',
    })) as (typeof loop)[];
    expect(left?.map(({ name }) => name)).toEqual([
      'edge 0',
      'edge 1',
      'edge 2',
      'cut',
      'cut',
      'cut',
      'edge 2',
      'edge 3',
    ]);
  });
});

/** Outlines and shapes on a grid, so that corners meet, edges coincide and arcs touch. */
const grid = fc.integer({ min: -2, max: 10 });
const size = fc.integer({ min: 1, max: 6 });
const at = fc.tuple(grid, grid);
const shapes = fc.oneof(
  fc.tuple(at, size, size).map(([[x, y], w, h]) => rectangle(x, y, w, h)),
  fc.tuple(at, size).map(([p, r]) => circle(p, r)),
  fc.tuple(at, size).map(([p, r]) => diamond(p, r)),
  fc
    .tuple(at, size, size, fc.constantFrom(0, 90, 45, 180))
    .map(([p, w, more, deg]) => obround(p, w, w + more, deg)),
);
const outlines = fc.oneof(
  shapes,
  fc.constant(polygon([0, 0], [8, 0], [8, 3], [3, 3], [3, 8], [0, 8])),
  fc.constant(polygon([0, 0], [8, 0], [8, 8], [6, 8], [6, 2], [2, 2], [2, 8], [0, 8])),
  // A rounded corner, and a mouth that is half a circle.
  fc.constant([
    { x: 0, y: 0, bulge: 0 },
    { x: 6, y: 0, bulge: Math.tan(Math.PI / 8) },
    { x: 8, y: 2, bulge: 0 },
    { x: 8, y: 8, bulge: 0 },
    { x: 6, y: 8, bulge: -1 },
    { x: 2, y: 8, bulge: 0 },
    { x: 0, y: 8, bulge: 0 },
  ] satisfies Loop),
);
/** From rounding over what counts as a gap to what anybody sees. */
const nudge = fc.constantFrom(0, 0, 1e-12, 1e-9, 3e-8, 1e-7, 2e-7, 1e-6, 1e-5, 1e-4, -1e-9, -1e-6);

/** Chords for arcs, and coordinates of six decimals, cost the general library this much, mm2. */
const WITNESS_MM2 = 0.02;

describe('what is left agrees with a general polygon library', () => {
  test('of shapes that touch, coincide and stand a hair apart, at any angle', () => {
    fc.assert(
      fc.property(
        outlines,
        shapes,
        nudge,
        nudge,
        fc.oneof(fc.constant(0), fc.constant(90), fc.double({ min: 0, max: 360, noNaN: true })),
        fc.constantFrom(0, 1000.1, -2345.678),
        (flatLoop, flatShape, dx, dy, deg, far) => {
          const turn = { c: cosDeg(deg), s: sinDeg(deg), x: far, y: far / 3 };
          const loop = moveLoop(turn, flatLoop);
          const shape = moveLoop(
            turn,
            flatShape.map((v) => ({ ...v, x: v.x + dx, y: v.y + dy })),
          );
          const left = taken(loop, shape);
          if (left[0] === loop && loopGap(loop, shape) > 0) return;
          const common = commonArea(loop, shape);
          const sum = areasOf(left).reduce((a, b) => a + b, 0);
          expect(Math.abs(signedArea(loop) - common - sum)).toBeLessThan(WITNESS_MM2);
          for (const part of left) {
            expect(signedArea(part)).toBeGreaterThan(0);
            expect(commonArea(part, shape)).toBeLessThan(WITNESS_MM2);
            for (const p of piecesOf(part)) expect(distance(p.from, p.to)).toBeGreaterThan(0);
          }
        },
      ),
      { numRuns: fuzzRuns(2000), endOnFailure: true },
    );
  });

  test('one after the other, as the reliefs of a part are', () => {
    fc.assert(
      fc.property(outlines, fc.array(shapes, { minLength: 2, maxLength: 4 }), (loop, cuts) => {
        let parts: readonly Loop[] = [loop];
        let least = signedArea(loop);
        for (const shape of cuts) {
          parts = parts.flatMap((part) => {
            // A hole is none of its business: it stays a whole.
            const left = taken(part, shape);
            return left[0] === part ? [part] : left;
          });
          const sum = areasOf(parts).reduce((a, b) => a + b, 0);
          expect(sum).toBeLessThan(least + WITNESS_MM2);
          least = sum;
        }
        for (const part of parts) expect(signedArea(part)).toBeGreaterThan(0);
      }),
      { numRuns: fuzzRuns(1000), endOnFailure: true },
    );
  });
});
