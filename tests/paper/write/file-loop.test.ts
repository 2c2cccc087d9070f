import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Loop, Vertex } from '../../../src/geometry/loop.ts';
import { polygon, rectangle } from '../../../src/geometry/loop.ts';
import { signedArea } from '../../../src/geometry/measure.ts';
import { circleOf, fileLoop } from '../../../src/dxf/write/file-loop.ts';
import { anyLoop } from '../../helpers/drawings.ts';

const loop = (...rows: [x: number, y: number, bulge: number][]): Loop =>
  rows.map(([x, y, bulge]) => ({ x, y, bulge }));

const gaps = (vertices: Loop): number[] =>
  vertices.map((v, i) => {
    const next = vertices[(i + 1) % vertices.length] as Vertex;
    return Math.hypot(next.x - v.x, next.y - v.y);
  });

test('any loop comes out with pieces of 0.01 mm and more, half circles at most, and a straight piece last if it has one', () => {
  fc.assert(
    fc.property(anyLoop, (given) => {
      const written = fileLoop(given) ?? [];
      expect(Math.min(...gaps(written))).toBeGreaterThanOrEqual(0.01);
      for (const v of written) expect(Math.abs(v.bulge)).toBeLessThanOrEqual(1);
      expect(written.at(-1)?.bulge === 0 || written.every((v) => v.bulge !== 0)).toBe(true);
    }),
  );
});

test('an obround slot ends with one of its straight sides', () => {
  expect(fileLoop(loop([-10, -5, 0], [10, -5, 1], [10, 5, 0], [-10, 5, 1]))).toEqual(
    loop([10, -5, 1], [10, 5, 0], [-10, 5, 1], [-10, -5, 0]),
  );
});

test('a loop of arcs alone keeps them all', () => {
  const lens = loop([0, 0, 0.5], [10, 0, 0.5]);
  expect(fileLoop(lens)).toEqual(lens);
});

test('three quarters of a circle become two arcs of three eighths each', () => {
  // tan(270 / 4) and tan(135 / 4), by the definition of the bulge.
  const wide = Math.tan((67.5 * Math.PI) / 180);
  const narrow = Math.tan((33.75 * Math.PI) / 180);
  const written = fileLoop(loop([10, 0, wide], [0, -10, 0])) ?? [];
  expect(written).toHaveLength(3);
  expect(written[0]?.bulge).toBeCloseTo(narrow, 11);
  expect(written[1]?.bulge).toBeCloseTo(narrow, 11);
  // Half way from 0 by 135 degrees on the circle of radius 10.
  expect(written[1]?.x).toBeCloseTo(-Math.SQRT1_2 * 10, 4);
  expect(written[1]?.y).toBeCloseTo(Math.SQRT1_2 * 10, 4);
});

test('a half circle that arithmetic made a hair too large stays one arc', () => {
  expect(fileLoop(loop([0, 0, 1 + 1e-15], [10, 0, 0]))).toEqual(loop([0, 0, 1], [10, 0, 0]));
});

describe('what is too small to cut', () => {
  test.for<[string, Loop]>([
    ['no vertex', []],
    ['one vertex', loop([5, 5, 0.7])],
    ['one point three times', polygon([5, 5], [5, 5], [5.00001, 5])],
    ['a speck', rectangle(5, 5, 0.005, 0.005)],
    ['there and back straight', polygon([0, 0], [10, 0])],
    ['there and back along an arc', loop([0, 0, 0.5], [10, 0, -0.5])],
  ])('%s is left out', ([, given]) => expect(fileLoop(given)).toBeUndefined());

  test('a short piece goes, whether first, last or in the middle', () => {
    const square = polygon([0, 0], [10, 0], [10, 10], [0, 10]);
    expect(fileLoop(polygon([0, 0], [0.00001, 0], [10, 0], [10, 10], [0, 10]))).toEqual(square);
    expect(fileLoop(polygon([0, 0], [10, 0], [10, 9.9999], [10, 10], [0, 10]))?.length).toBe(4);
    expect(fileLoop(polygon([0, 0], [10, 0], [10, 10], [0, 10], [0, 0.004]))).toEqual(square);
  });

  test('an arc that does not rise by half a step is straight', () => {
    expect(fileLoop(loop([0, 0, 9e-7], [100, 0, 0], [50, 50, 0]))).toEqual(
      polygon([0, 0], [100, 0], [50, 50]),
    );
    expect(fileLoop(loop([0, 0, 2e-6], [100, 0, 0], [50, 50, 0]))?.some((v) => v.bulge !== 0)).toBe(
      true,
    );
  });
});

describe('a full circle', () => {
  test.for([2, 3, 7])('of %i arcs is recognised, either way round', (count) => {
    const bulge = Math.tan(Math.PI / 2 / count);
    for (const way of [1, -1]) {
      const arcs = Array.from({ length: count }, (_, i): Vertex => {
        const angle = (way * 2 * Math.PI * i) / count;
        return { x: 3 + 5 * Math.cos(angle), y: 4 + 5 * Math.sin(angle), bulge: way * bulge };
      });
      const circle = circleOf(arcs);
      expect(circle?.radius).toBeCloseTo(5, 9);
      expect(circle?.centre[0]).toBeCloseTo(3, 9);
      expect(circle?.centre[1]).toBeCloseTo(4, 9);
      expect(Math.abs(signedArea(arcs))).toBeCloseTo(25 * Math.PI, 6);
    }
  });

  test.for<[string, Loop]>([
    ['a lens', loop([0, 0, 0.5], [10, 0, 0.5])],
    ['an S closed on itself', loop([0, 0, 1], [10, 0, -1])],
    ['a slot', loop([-10, -5, 0], [10, -5, 1], [10, 5, 0], [-10, 5, 1])],
    ['two turns', loop([5, 0, 1], [-5, 0, 1], [5, 0, 1], [-5, 0, 1])],
    ['nothing', []],
  ])('is not seen in %s', ([, given]) => expect(circleOf(given)).toBeUndefined());
});
