import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BoxGrid, spot } from '../../src/geometry/box-grid.ts';
import type { Extents } from '../../src/geometry/extents.ts';
import { selfCrossing } from '../../src/geometry/self-crossing.ts';
import { loopGap } from '../../src/geometry/gap.ts';
import { rectangle, type Loop } from '../../src/geometry/loop.ts';
import { circle } from '../../src/geometry/shapes.ts';
import { fixedRuns } from '../helpers/extent.ts';

const mm = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Boxes of very different sizes, points and lines among them, some far from all others. */
const box = fc
  .tuple(
    fc.oneof(mm(-50, 50), mm(-5000, 5000)),
    fc.oneof(mm(-50, 50), fc.constant(7)),
    fc.oneof(fc.constant(0), mm(0, 5), mm(0, 4000)),
    fc.oneof(fc.constant(0), mm(0, 5), mm(0, 300)),
  )
  .map(([x, y, w, h]): Extents => ({ minX: x, minY: y, maxX: x + w, maxY: y + h }));

const apart = (a: Extents, b: Extents): number =>
  Math.max(a.minX - b.maxX, b.minX - a.maxX, a.minY - b.maxY, b.minY - a.maxY, 0);

describe('boxes near a box', () => {
  test('are those that a look at each of them finds, in their order', () => {
    fc.assert(
      fc.property(
        fc.array(box, { maxLength: 120 }),
        fc.array(fc.tuple(box, fc.constantFrom(0, 0.5, 30, Infinity)), { maxLength: 20 }),
        (boxes, questions) => {
          const grid = new BoxGrid(boxes);
          for (const [asked, within] of questions) {
            const near = grid.near(asked, within);
            expect(near).toEqual(
              boxes.flatMap((b, i) => (apart(b, asked) <= within + 1e-7 ? [i] : [])),
            );
          }
        },
      ),
      { numRuns: fixedRuns(300) },
    );
  });

  test('are found where all lie on one line, and where there are none', () => {
    const row = Array.from({ length: 1000 }, (_, i) => spot([3 * i, 5]));
    expect(new BoxGrid(row).near(spot([300, 5]), 4)).toEqual([99, 100, 101]);
    expect(
      new BoxGrid(Array.from({ length: 100 }, () => spot([1, 1]))).near(spot([1, 1]), 0),
    ).toHaveLength(100);
    expect(new BoxGrid([]).near(spot([0, 0]), Infinity)).toEqual([]);
  });
});

describe('loops of many pieces', () => {
  /** A gear of straight teeth, counter-clockwise. */
  const gear = (teeth: number): Loop =>
    Array.from({ length: 2 * teeth }, (_, i) => {
      const turn = (Math.PI * i) / teeth;
      const radius = i % 2 === 0 ? 100 : 90;
      return { x: radius * Math.cos(turn), y: radius * Math.sin(turn), bulge: 0 };
    });

  test('have the gap that their pieces have one by one', () => {
    const teeth = gear(60);
    const hole = circle([80, 3], 4);
    const alone = teeth.map((v, i) => {
      const to = teeth[(i + 1) % teeth.length] as Loop[number];
      return loopGap(hole, [{ ...v }, { ...to }]);
    });
    for (const within of [2, 8, Infinity])
      expect(loopGap(hole, teeth, within)).toBe(Math.min(within, ...alone));
    expect(loopGap(teeth, rectangle(-10, -10, 10, 10), 5)).toBe(5);
  });

  test('are told where they cross themselves', () => {
    const teeth = gear(60);
    expect(selfCrossing(teeth)).toBeUndefined();
    const bent = teeth.map((v, i) => (i === 30 ? { ...v, x: -v.x, y: -v.y } : v));
    expect(selfCrossing(bent)).toMatchObject({ first: 29 });
  });
});
