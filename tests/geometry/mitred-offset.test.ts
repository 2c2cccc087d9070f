import { describe, expect, test } from 'vitest';
import { type Loop, polygon, rectangle } from '../../src/geometry/loop.ts';
import { perimeter, signedArea } from '../../src/geometry/measure.ts';
import { mitredOffset } from '../../src/geometry/mitred-offset.ts';
import { roundCorners } from '../../src/geometry/fillet.ts';
import { circle } from '../../src/geometry/shapes.ts';

const rounded = (loop: Loop, r: number): Loop => {
  const made = roundCorners(
    loop,
    loop.map((_, i) => i),
    r,
  );
  if (!made.ok) throw new Error('too big');
  return made.loop;
};
const L = polygon([0, 0], [100, 0], [100, 40], [40, 40], [40, 100], [0, 100]);

describe('the outline beside another', () => {
  test.each([
    ['a rectangle stays sharp outwards', rectangle(0, 0, 60, 40), 3, 66 * 46],
    ['and inwards', rectangle(0, 0, 60, 40), -3, 54 * 34],
    ['an inward corner stays sharp', L, 2, 104 * 44 + 44 * 60],
    ['either way', L, -2, 96 * 36 + 36 * 60],
    [
      'rounds keep their centres',
      rounded(rectangle(0, 0, 60, 40), 8),
      2,
      64 * 44 - (4 - Math.PI) * 100,
    ],
    ['a round that is used up is a corner', rounded(rectangle(0, 0, 60, 40), 2), -3, 54 * 34],
    ['a circle', circle([3, 4], 20), -5, Math.PI * 225],
  ])('%s', (_, loop, by, area) => {
    expect(signedArea(mitredOffset(loop, by) ?? [])).toBeCloseTo(area, 6);
  });

  test('of a leaning corner lies square beside both its sides', () => {
    const made = mitredOffset(polygon([0, 0], [120, 0], [90, 80]), 1) ?? [];
    // A triangle grown by d is like it: its inradius grows by d.
    const [area, round] = [4800, perimeter(polygon([0, 0], [120, 0], [90, 80]))];
    const r = (2 * area) / round;
    expect(signedArea(made)).toBeCloseTo(area * ((r + 1) / r) ** 2, 6);
  });

  test.each([
    ['a strip without room', rectangle(0, 0, 60, 4), -2.5],
    ['a circle without a radius', circle([0, 0], 3), -3],
  ])('%s has none', (_, loop, by) => {
    expect(mitredOffset(loop, by)).toBeUndefined();
  });
});
