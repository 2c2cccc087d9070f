import { describe, expect, test } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { pointGap } from '../../src/geometry/gap.ts';
import { type Loop, polygon, rectangle } from '../../src/geometry/loop.ts';
import { signedArea } from '../../src/geometry/measure.ts';
import { offsetLoop } from '../../src/geometry/offset.ts';
import { circle, obround } from '../../src/geometry/shapes.ts';
import { inflatedArea } from '../helpers/clipper.ts';
import { pointsAlong } from '../helpers/curve-distance.ts';
import { inTurns } from '../helpers/extent.ts';
import { TREES } from '../helpers/trees.ts';

const area = (loop: Loop | undefined): number => (loop === undefined ? NaN : signedArea(loop));

describe('the curve beside a loop', () => {
  test.each([
    // Rectangle: sides move out, corners are quarter circles; moved in, corners stay sharp.
    ['rectangle out', rectangle(0, 0, 40, 20), 1, 42 * 22 - (4 - Math.PI)],
    ['rectangle in', rectangle(0, 0, 40, 20), -1, 38 * 18],
    ['circle out', circle([0, 0], 10), 0.5, Math.PI * 10.5 ** 2],
    ['circle in', circle([0, 0], 10), -0.5, Math.PI * 9.5 ** 2],
    // A slot 8 wide, 30 long becomes one 6 wide, 28 long.
    ['slot in', obround([0, 0], 8, 30, 30), -1, 22 * 6 + Math.PI * 9],
    // An L: the inner corner meets at a point outside, the five others are gone round.
    [
      'L out',
      polygon([0, 0], [30, 0], [30, 10], [10, 10], [10, 30], [0, 30]),
      1,
      32 * 12 + 12 * 20 - 5 * (1 - Math.PI / 4),
    ],
    [
      'L in',
      polygon([0, 0], [30, 0], [30, 10], [10, 10], [10, 30], [0, 30]),
      -1,
      28 * 8 + 8 * 20 + (1 - Math.PI / 4),
    ],
  ])('%s', (_, loop, by, expected) => {
    const beside = offsetLoop(loop, by);
    expect(area(beside)).toBeCloseTo(expected, 9);
    for (const p of pointsAlong(beside as Loop))
      expect(pointGap(p, loop)).toBeCloseTo(Math.abs(by), 9);
  });

  test('arcs stay arcs, and no vertex is added but at corners that are gone round', () => {
    expect(offsetLoop(circle([3, 4], 10), 1)).toEqual([
      { x: -8, y: 4, bulge: 1 },
      { x: 14, y: 4, bulge: 1 },
    ]);
    expect(offsetLoop(rectangle(0, 0, 40, 20), 1)).toHaveLength(8);
    expect(offsetLoop(rectangle(0, 0, 40, 20), -1)).toHaveLength(4);
    expect(offsetLoop(obround([0, 0], 8, 30, 0), 1)).toHaveLength(4);
    const plain = rectangle(0, 0, 40, 20);
    expect(offsetLoop(plain, 0)).toBe(plain);
  });

  test.each([
    ['a slot as wide as the distance twice', obround([0, 0], 2, 30, 0), -1],
    ['a rectangle as wide', rectangle(0, 0, 40, 2), -1],
    ['a circle as small', circle([0, 0], 1), -1],
    [
      'a notch closed by its sides',
      polygon([0, 0], [40, 0], [40, 20], [21, 20], [21, 10], [19, 10], [19, 20], [0, 20]),
      1,
    ],
    [
      'an inner corner rounder than the tool',
      [
        { x: 0, y: 0, bulge: 0 },
        { x: 30, y: 0, bulge: 0 },
        { x: 30, y: 10, bulge: 0 },
        { x: 11, y: 10, bulge: -Math.tan(Math.PI / 8) },
        { x: 10, y: 11, bulge: 0 },
        { x: 10, y: 30, bulge: 0 },
        { x: 0, y: 30, bulge: 0 },
      ],
      1.2,
    ],
  ] as const)('%s has none', (_, loop, by) => {
    expect(offsetLoop(loop, by)).toBeUndefined();
    expect(offsetLoop(loop, by * 0.9 * (by > 1 ? 0.9 : 1))).toBeDefined();
  });

  test.each(inTurns(TREES, 0, 2))(
    '$name: as far beside the blank everywhere, and as large as a polygon library makes it',
    ({ part }) => {
      const { outline } = flatten(part, { id: 'k', k: 0.42 });
      let made = 0;
      for (const by of [0.05, 0.7, -0.4]) {
        const beside = offsetLoop(outline, by);
        if (beside === undefined) continue;
        made += 1;
        expect(area(beside) / inflatedArea(outline, by)).toBeCloseTo(1, 5);
        for (const p of pointsAlong(beside))
          expect(pointGap(p, outline)).toBeCloseTo(Math.abs(by), 6);
      }
      expect(made).toBeGreaterThan(1);
    },
  );
});
