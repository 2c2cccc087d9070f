import { expect, it } from 'vitest';
import fc from 'fast-check';
import { rootsOf } from '../../src/geometry/polynomial.ts';

/** (x - a)(x - b)... from its constant upwards. */
const withRoots = (roots: readonly number[]): number[] =>
  roots.reduce<number[]>((all, root) => [0, ...all].map((c, i) => c - root * (all[i] ?? 0)), [1]);

it('finds the roots that a polynomial of up to the fourth degree was made of', () => {
  const apart = fc
    .uniqueArray(fc.integer({ min: -400, max: 400 }), { minLength: 1, maxLength: 4 })
    .map((roots) => roots.toSorted((a, b) => a - b));
  fc.assert(
    fc.property(apart, (roots) => {
      const found = rootsOf(withRoots(roots));
      expect(found).toHaveLength(roots.length);
      found.forEach((root, i) => expect(root).toBeCloseTo(roots[i] as number, 5));
    }),
  );
});

it('has none where there is none', () => {
  expect(rootsOf([1, 0, 1])).toEqual([]);
  expect(rootsOf([5])).toEqual([]);
  expect(rootsOf([1, 0, 0, 0, 1])).toEqual([]);
});
