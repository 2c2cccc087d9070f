import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { arcOf, bulgeOf } from '../../src/geometry/arc.ts';
import { jointExtents, loopExtents, pointExtents } from '../../src/geometry/extents.ts';
import type { Loop } from '../../src/geometry/loop.ts';
import { anyLoop } from '../helpers/drawings.ts';
import { published } from '../helpers/published.ts';

const asList = (loop: Loop): number[] => {
  const e = loopExtents(loop);
  return e === undefined ? [] : [e.minX, e.minY, e.maxX, e.maxY];
};

const expectNear = (
  found: readonly number[],
  wanted: readonly number[],
  tolerance: number,
): void => {
  expect(found).toHaveLength(wanted.length);
  found.forEach((value, i) =>
    expect(Math.abs(value - (wanted[i] as number))).toBeLessThanOrEqual(tolerance),
  );
};

test('an obround slot reaches as far as its ends (published, d6)', () => {
  const { given, expect: wanted, tolerance } = published('exchange', 'd6');
  const loop = (given['polyline'] as [number, number, number][]).map(([x, y, bulge]) => ({
    x,
    y,
    bulge,
  }));
  expectNear(asList(loop), wanted['extents'] as number[], tolerance);
});

test('an arc under its circle’s lowest point reaches it (published, d13)', () => {
  const { given, expect: wanted, tolerance } = published('exchange', 'd13');
  const { r, start_deg, end_deg } = given['arc'] as {
    r: number;
    start_deg: number;
    end_deg: number;
  };
  const at = (deg: number): { x: number; y: number } => ({
    x: r * Math.cos((deg * Math.PI) / 180),
    y: r * Math.sin((deg * Math.PI) / 180),
  });
  const bulge = bulgeOf(((end_deg - start_deg) * Math.PI) / 180);
  expectNear(
    asList([
      { ...at(start_deg), bulge },
      { ...at(end_deg), bulge: 0 },
    ]),
    wanted['extents'] as number[],
    tolerance,
  );
});

test('random loops reach as far as flatten-js says', () => {
  fc.assert(
    fc.property(anyLoop, (loop) => {
      // flatten-js takes everything within 1e-6 for the same, so flat arcs are left to the next
      // test.
      const plain = loop.map((v) => (Math.abs(v.bulge) < 1e-3 ? { ...v, bulge: 0 } : v));
      let box = new Flatten.Box();
      plain.forEach((v, i) => {
        const next = plain[(i + 1) % plain.length] as (typeof plain)[number];
        if (v.bulge === 0) {
          box = box.merge(
            new Flatten.Segment(new Flatten.Point(v.x, v.y), new Flatten.Point(next.x, next.y)).box,
          );
          return;
        }
        const { centre, radius, startRad, sweepRad } = arcOf([v.x, v.y], [next.x, next.y], v.bulge);
        box = box.merge(
          new Flatten.Arc(
            new Flatten.Point(...centre),
            radius,
            startRad,
            startRad + sweepRad,
            sweepRad > 0,
          ).box,
        );
      });
      expectNear(asList(plain), [box.xmin, box.ymin, box.xmax, box.ymax], 1e-4);
    }),
  );
});

test('an almost straight arc reaches past its ends by its rise', () => {
  // Rise b c / 2 by the definition of the bulge.
  expectNear(
    asList([
      { x: 0, y: 0, bulge: 1e-9 },
      { x: 100, y: 0, bulge: 0 },
    ]),
    [0, -5e-8, 100, 0],
    1e-15,
  );
});

test('nothing has no extents', () => {
  expect(loopExtents([])).toBeUndefined();
  expect(pointExtents([])).toBeUndefined();
  expect(jointExtents([])).toBeUndefined();
});
