import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type Facet,
  facetChains,
  foldAngleDeg,
  rimPoint,
  rimRadiusMm,
  type Transition,
} from '../../templates/duct-transition/surface.ts';
import type { Vec3 } from '../../src/geometry/vec3.ts';
import { fuzzRuns } from '../helpers/extent.ts';

const facet = (points: readonly [Vec3, Vec3, Vec3]): Facet => ({
  id: 'facet',
  points,
  edges: ['base', 'entry', 'exit'],
});

test.each([
  [30, 30],
  [-30, -30],
  [0, 0],
  [135, 135],
])('a facet raised by %d degrees towards the inside is folded by %d', (raised, folded) => {
  const a = (raised * Math.PI) / 180;
  const level = facet([
    [0, 0, 0],
    [10, 0, 0],
    [3, 10, 0],
  ]);
  const other = facet([
    [10, 0, 0],
    [0, 0, 0],
    [6, -10 * Math.cos(a), 10 * Math.sin(a)],
  ]);
  expect(foldAngleDeg(level, other)).toBeCloseTo(folded, 9);
});

const transitions: fc.Arbitrary<Transition> = fc.record({
  widthMm: fc.integer({ min: 10, max: 500 }),
  depthMm: fc.integer({ min: 10, max: 500 }),
  diameterMm: fc.integer({ min: 10, max: 500 }),
  lengthMm: fc.integer({ min: 5, max: 500 }),
  centre: fc.tuple(fc.integer({ min: -400, max: 400 }), fc.integer({ min: -400, max: 400 })),
  divisions: fc.integer({ min: 1, max: 12 }).map((n) => 4 * n),
  rim: fc.constantFrom('circumference' as const, 'chords' as const),
});

test('a transition is the hull of its ends: every fold goes inwards, wherever the ends stand', () => {
  fc.assert(
    fc.property(transitions, fc.constantFrom('front' as const, 'left' as const), (t, side) => {
      for (const chain of facetChains(t, { blanks: 'whole', at: 'corner', side })) {
        for (const [i, after] of chain.slice(1).entries())
          expect(foldAngleDeg(chain[i] as Facet, after)).toBeGreaterThan(0);
      }
    }),
    { numRuns: fuzzRuns(300) },
  );
});

test('chords on the circle, or together as long as it', () => {
  const t: Transition = {
    widthMm: 100,
    depthMm: 100,
    diameterMm: 120,
    lengthMm: 80,
    centre: [7, -3],
    divisions: 12,
    rim: 'chords',
  };
  expect(rimRadiusMm(t)).toBe(60);
  const [a, b] = [0, 1].map((i) => rimPoint({ ...t, rim: 'circumference' }, i)) as [Vec3, Vec3];
  expect(12 * Math.hypot(a[0] - b[0], a[1] - b[1])).toBeCloseTo(Math.PI * 120, 9);
  // The foremost point is in line with the middle.
  expect([a[0], a[2]]).toEqual([7, 80]);
});
