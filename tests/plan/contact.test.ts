import fc from 'fast-check';
import { expect, test } from 'vitest';
import { intersectD, areaPathsD, FillRule } from 'clipper2-ts';
import type { Pose } from '../../src/geometry/pose.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import { polygonArea } from '../../src/geometry/convex-polygon.ts';
import { placeSolid, prism, shadowOf, type Solid } from '../../src/geometry/convex-solid.ts';
import { swingContact } from '../../src/plan/machines/swing-contact.ts';
import { turnContact } from '../../src/plan/machines/turn-contact.ts';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';
import { cross3d, type Point3 } from './replay-part.ts';

/** The hull of some points up to `far` from the origin, about which is turned, and `size` wide. */
const hull = (far: number, size: number): fc.Arbitrary<Vec2[]> => {
  const within = (reach: number) =>
    fc.tuple(fc.integer({ min: -reach, max: reach }), fc.integer({ min: -reach, max: reach }));
  return fc
    .record({ at: within(far), points: fc.array(within(size / 2), { minLength: 4, maxLength: 8 }) })
    .map(({ at, points }) => shadowOf(points.map(([x, y]): Point3 => [at[0] + x, at[1] + y, 0])))
    .filter((p) => p.length > 2 && polygonArea(p) > (size * size) / 20);
};

const polygon = hull(150, 80);

const turned = (p: readonly Vec2[], deg: number): Vec2[] => {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return p.map(([x, y]): Vec2 => [c * x - s * y, s * x + c * y]);
};

/** By a polygon library of others. */
const shareArea = (a: readonly Vec2[], b: readonly Vec2[]): boolean => {
  const path = (p: readonly Vec2[]) => p.map(([x, y]) => ({ x, y }));
  return areaPathsD(intersectD([path(a)], [path(b)], FillRule.NonZero, 6)) > 1e-5;
};

/** Scaled about its middle. */
const aroundMiddle = (p: readonly Vec2[], k: number): Vec2[] => {
  const [x, y] = [0, 1].map((i) => p.reduce((sum, q) => sum + (q[i] as number), 0) / p.length) as [
    number,
    number,
  ];
  return p.map((q): Vec2 => [x + k * (q[0] - x), y + k * (q[1] - y)]);
};

const STEP_DEG = 0.5;

test('where a turning polygon first meets another: nothing shared before, something soon after', () => {
  let met = 0;
  fc.assert(
    fc.property(polygon, polygon, fc.integer({ min: -180, max: 180 }), (a, b, turn) => {
      const first = turnContact(a, b, turn);
      const sense = Math.sign(turn) || 1;
      for (let deg = 0; deg < (first ?? Math.abs(turn)); deg += STEP_DEG)
        expect(shareArea(turned(a, sense * deg), b)).toBe(false);
      if (first === undefined) return;
      met += 1;
      // A corner may graze the other polygon and be gone again: then a hair's growth is enough to
      // share something.
      const grown = (deg: number): boolean =>
        shareArea(turned(a, sense * deg), aroundMiddle(b, 1.001));
      expect([0, 1e-6, 0.01, 0.1, 0.5].some((more) => grown(first + more))).toBe(true);
    }),
    { numRuns: fuzzRuns(400) },
  );
  expect(met).toBeGreaterThan(shareOf(80));
});

const plane = fc.record({
  polygon: hull(100, 160),
  angles: fc.tuple(fc.integer({ min: 0, max: 359 }), fc.integer({ min: 0, max: 359 })),
  lift: fc.integer({ min: -40, max: 40 }),
});

/** The polygon's plane turned about the x axis and the y axis, and lifted. */
const sheet = ({
  polygon: p,
  angles: [u, v],
  lift,
}: {
  polygon: readonly Vec2[];
  angles: readonly [number, number];
  lift: number;
}): Solid => {
  const rad = (deg: number): number => (deg * Math.PI) / 180;
  const [cu, su, cv, sv] = [Math.cos(rad(u)), Math.sin(rad(u)), Math.cos(rad(v)), Math.sin(rad(v))];
  const pose: Pose = {
    o: [0, 0, lift],
    x: [cv, 0, -sv],
    y: [su * sv, cu, su * cv],
    z: [cu * sv, -su, cu * cv],
  };
  return placeSolid(pose, prism(p, 0, 0));
};

const posed = (s: Solid, deg: number) => ({
  panel: '',
  corners: s.corners.map(([x, y, z]): Point3 => [...(turned([[x, y]], deg)[0] as Vec2), z]),
});

test('where a turning sheet first meets another: no edge pierces before, one does soon after', () => {
  let met = 0;
  fc.assert(
    fc.property(plane, plane, fc.integer({ min: 5, max: 180 }), (p, q, turn) => {
      const [a, b] = [sheet(p), sheet(q)];
      fc.pre(!cross3d(posed(a, 0), posed(b, 0), 0));
      const first = swingContact(a, b, turn);
      for (let deg = 0; deg < (first ?? turn) - 1e-6; deg += STEP_DEG)
        expect(cross3d(posed(a, deg), posed(b, 0), 1e-6)).toBe(false);
      if (first === undefined) return;
      met += 1;
      expect(
        [1e-4, 0.01, 0.1, 0.3].some((more) => cross3d(posed(a, first + more), posed(b, 0), 0)),
      ).toBe(true);
    }),
    { numRuns: fuzzRuns(400) },
  );
  expect(met).toBeGreaterThan(shareOf(40));
});
