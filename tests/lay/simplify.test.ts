import { expect, test } from 'vitest';
import { isInside } from '../../src/geometry/inside.ts';
import { pointGap } from '../../src/geometry/gap.ts';
import { polygon } from '../../src/geometry/loop.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import { simplifiedOutward } from '../../src/lay/simplify.ts';

/** A disc with a round bay, finely flattened. */
const bitten = (count: number): Vec2[] => [
  ...Array.from({ length: count }, (_, i): Vec2 => {
    const rad = 0.5 + ((2 * Math.PI - 1) * i) / (count - 1);
    return [50 * Math.cos(rad), 50 * Math.sin(rad)];
  }),
  ...Array.from({ length: count }, (_, i): Vec2 => {
    const rad = -Math.PI / 2 - (Math.PI * (i + 1)) / (count + 1);
    return [44 + 24 * Math.cos(rad), 24 * Math.sin(rad)];
  }),
];

test.each([
  [0.02, 0.8],
  [0.2, 0.3],
  [1, 0.2],
])(
  'within %f mm a fine outline keeps few of its corners, and nothing sticks out',
  (within, share) => {
    const fine = bitten(120);
    const simple = simplifiedOutward(fine, within);
    expect(simple.length).toBeLessThan(share * fine.length);
    const [before, after] = [polygon(...fine), polygon(...simple)];
    for (const p of fine) {
      expect(isInside(after, p) || pointGap(p, after) < 1e-9).toBe(true);
      expect(pointGap(p, after)).toBeLessThan(4 * within);
    }
    for (const p of simple) expect(isInside(before, p) && pointGap(p, before) > 1e-9).toBe(false);
  },
);

test('corners that matter stay', () => {
  const ell: Vec2[] = [
    [0, 0],
    [40, 0],
    [40, 10],
    [10, 10],
    [10, 40],
    [0, 40],
  ];
  expect(simplifiedOutward(ell, 0.5)).toEqual(ell);
});
