import { describe, expect, test } from 'vitest';
import { arcOf } from '../../src/geometry/arc.ts';
import { roundCorners } from '../../src/geometry/fillet.ts';
import { edgeNames, type Loop, polygon, rectangle } from '../../src/geometry/loop.ts';
import { perimeter, signedArea } from '../../src/geometry/measure.ts';

const round = (...args: Parameters<typeof roundCorners>) => {
  const rounded = roundCorners(...args);
  if (!rounded.ok) throw new Error(`largest ${rounded.largestMm}`);
  return rounded;
};

const arcs = (loop: Loop) =>
  loop.flatMap((v, i) => {
    const next = loop[(i + 1) % loop.length] ?? v;
    return v.bulge === 0 ? [] : [arcOf([v.x, v.y], [next.x, next.y], v.bulge)];
  });

describe('roundCorners', () => {
  test('a square corner loses r^2 (1 - pi/4) and stays on its centre (table of plane figures)', () => {
    const { loop } = round(rectangle(0, 0, 80, 60), [0, 1], 10);
    expect(signedArea(loop)).toBeCloseTo(80 * 60 - 2 * 100 * (1 - Math.PI / 4), 9);
    expect(perimeter(loop)).toBeCloseTo(2 * (80 + 60) - 2 * 10 * (2 - Math.PI / 2), 9);
    const centres = arcs(loop).map((arc) => [...arc.centre, arc.radius]);
    expect(centres).toEqual([
      [expect.closeTo(10, 9), expect.closeTo(10, 9), expect.closeTo(10, 9)],
      [expect.closeTo(70, 9), expect.closeTo(10, 9), expect.closeTo(10, 9)],
    ]);
    // What is left of each edge keeps its name: the top still runs from (80, 60) to the left.
    expect(edgeNames(loop)).toEqual(['bottom', 'right', 'top', 'left']);
    expect(loop.find(({ edge }) => edge === 'top')).toEqual({
      x: 80,
      y: 60,
      bulge: 0,
      edge: 'top',
    });
    expect(loop.find(({ edge }) => edge === 'bottom')).toMatchObject({
      x: expect.closeTo(10, 9) as number,
      y: 0,
    });
  });

  test.each([30, 60, 120, 150])(
    'a corner that turns by %d degrees loses r^2 (tan(w/2) - w/2)',
    (turn) => {
      const w = (turn * Math.PI) / 180;
      const corner = polygon([0, 0], [100, 0], [100 + 100 * Math.cos(w), 100 * Math.sin(w)]);
      const { loop } = round(corner, [1], 5);
      expect(signedArea(corner) - signedArea(loop)).toBeCloseTo(25 * (Math.tan(w / 2) - w / 2), 9);
      expect(arcs(loop).map((arc) => arc.radius)).toEqual([expect.closeTo(5, 9)]);
    },
  );

  test('an inward corner gains what an outward one loses', () => {
    const ell = polygon([0, 0], [60, 0], [60, 20], [20, 20], [20, 60], [0, 60]);
    const { loop } = round(ell, [3], 8);
    expect(signedArea(loop) - signedArea(ell)).toBeCloseTo(64 * (1 - Math.PI / 4), 9);
    expect(arcs(loop).map((arc) => Math.sign(arc.sweepRad))).toEqual([-1]);
  });

  test('two corners may use up the piece between them: a half circle without a piece of no length', () => {
    const { loop } = round(rectangle(0, 0, 40, 60), [0, 1], 20);
    expect(loop).toHaveLength(5);
    expect(edgeNames(loop)).toEqual(['right', 'top', 'left']);
    expect(signedArea(loop)).toBeCloseTo(40 * 40 + (Math.PI / 2) * 400, 9);
  });

  test.each([
    ['half the width', [0, 1], [], 20.001, 20],
    ['what a fold leaves of a side', [0, 1], [0, 45, 0, 45], 15.001, 15],
    ['the whole side beside one corner', [0], [], 40.001, 40],
  ] as const)('the largest radius that fits is %s', (_, corners, keep, tooBig, largest) => {
    const refused = roundCorners(rectangle(0, 0, 40, 60), corners, tooBig, keep);
    expect(refused).toEqual({ ok: false, largestMm: expect.closeTo(largest, 9) });
    expect(roundCorners(rectangle(0, 0, 40, 60), corners, largest, keep).ok).toBe(true);
  });

  test('radius 0 leaves the loop as it is', () => {
    const plate = rectangle(0, 0, 40, 60);
    expect(round(plate, [0, 1, 2, 3], 0)).toEqual({ ok: true, loop: plate });
  });
});
