import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hullOf } from '../../src/geometry/convex-polygon.ts';
import { polygon } from '../../src/geometry/loop.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import { depthCells, depthIn } from '../../src/lay/depth-cells.ts';
import { EDGE, type NoFit } from '../../src/lay/no-fit.ts';
import { NoFits, type Outline, shapeOf } from '../../src/lay/shapes.ts';
import { commonArea } from '../helpers/clipper.ts';
import { fixedRuns } from '../helpers/extent.ts';

/** A star-shaped outline about its 0,0, mostly with bays. */
const star = fc
  .array(fc.integer({ min: 3, max: 40 }), { minLength: 3, maxLength: 9 })
  .map((radii) =>
    radii.map((r, i): Vec2 => {
      const rad = (2 * Math.PI * i) / radii.length;
      return [
        Math.round(r * Math.cos(rad) * 1000) / 1000,
        Math.round(r * Math.sin(rad) * 1000) / 1000,
      ];
    }),
  );
const turn = fc.constantFrom(0, 90, 180, 270, 33);
const far = fc.double({ min: -90, max: 90, noNaN: true });

const moved = (ring: readonly Vec2[], deg: number, x: number, y: number): Vec2[] => {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return ring.map(([px, py]) => [c * px - s * py + x, s * px + c * py + y]);
};

const depthOf = (a: Outline, turnA: number, b: Outline, turnB: number, x: number, y: number) =>
  new NoFits([shapeOf(a, 0, turnA), shapeOf(b, 1, turnB)]).depth(0, 1, x, y);

describe('the no-fit polygon of two shapes', () => {
  test('tells overlap from none as a general polygon library does, and its depth takes it away', () => {
    fc.assert(
      fc.property(star, turn, star, turn, far, far, (a, turnA, b, turnB, x, y) => {
        const depth = depthOf({ outer: a, holes: [] }, turnA, { outer: b, holes: [] }, turnB, x, y);
        const common = commonArea(
          polygon(...moved(a, turnA, 0, 0)),
          polygon(...moved(b, turnB, x, y)),
        );
        if (common > 0.01) expect(depth).toBeGreaterThan(0);
        if (depth > 0.01) expect(common).toBeGreaterThan(0);
      }),
      { numRuns: fixedRuns(2000) },
    );
  });

  test('is as deep as the way out of it is long: convex shapes, by the corners of one less those of the other', () => {
    fc.assert(
      fc.property(star, star, far, far, (a, b, x, y) => {
        const [p, q] = [hullOf(a), hullOf(b)];
        fc.pre(p.length > 2 && q.length > 2);
        const depth = depthOf({ outer: p, holes: [] }, 0, { outer: q, holes: [] }, 0, x, y);
        const sums = hullOf(p.flatMap(([px, py]) => q.map(([qx, qy]): Vec2 => [px - qx, py - qy])));
        const sides = sums.map(([fromX, fromY], i) => {
          const [toX, toY] = sums[(i + 1) % sums.length] as Vec2;
          return (
            ((toX - fromX) * (y - fromY) - (toY - fromY) * (x - fromX)) /
            Math.hypot(toX - fromX, toY - fromY)
          );
        });
        expect(depth).toBeCloseTo(Math.max(0, Math.min(...sides)), 5);
      }),
      { numRuns: fixedRuns(2000) },
    );
  });

  test('has room in a hole for what fits in it, and none for what is larger', () => {
    const frame: Outline = {
      outer: [
        [0, 0],
        [100, 0],
        [100, 100],
        [0, 100],
      ],
      holes: [
        [
          [20, 20],
          [80, 20],
          [80, 80],
          [20, 80],
        ],
      ],
    };
    const square = (side: number): Outline => ({
      outer: [
        [0, 0],
        [side, 0],
        [side, side],
        [0, side],
      ],
      holes: [],
    });
    expect(depthOf(frame, 0, square(40), 0, 30, 30)).toBe(0);
    expect(depthOf(frame, 0, square(40), 0, 41, 30)).toBeCloseTo(1, 6);
    expect(depthOf(frame, 0, square(70), 0, 15, 15)).toBeGreaterThan(1);
    expect(depthOf(frame, 90, square(40), 0, -70, 30)).toBe(0);
  });

  // The cells of the polygon leave edges out; what they leave out must not matter. Points with round
  // figures lie on edges and level with corners.
  test('is as deep anywhere as all its edges say: points with round figures, at corners and beside', () => {
    const round = fc
      .array(fc.tuple(fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 6 })), {
        minLength: 3,
        maxLength: 7,
      })
      .map((points) => hullOf(points.map(([x, y]): Vec2 => [x, y])))
      .filter((hull) => hull.length > 2);
    // Bays as wide as what comes into them: rings of the polygon touch, and run back on themselves.
    const withBays = fc.constantFrom<readonly Vec2[]>(
      ringOf('00 20 21 11 12 22 23 03'),
      ringOf('00 60 62 22 24 64 66 06'),
      ringOf('00 20 22 12 11 01'),
      ringOf('10 20 21 31 32 22 23 13 12 02 01 11'),
      ringOf('00 20 22 02'),
    );
    const near = fc.constantFrom(0, 1e-12, -1e-9, 1e-6, 0.25);
    fc.assert(
      fc.property(
        fc.oneof(star, round, withBays),
        turn,
        fc.oneof(star, round, withBays),
        turn,
        fc.array(fc.tuple(fc.nat(), near, near), { minLength: 20, maxLength: 60 }),
        (a, turnA, b, turnB, places) => {
          const noFits = new NoFits([
            shapeOf({ outer: a, holes: [] }, 0, turnA),
            shapeOf({ outer: b, holes: [] }, 1, turnB),
          ]);
          const { edges, minX, minY, maxX, maxY } = noFits.of(0, 1);
          const from = Array.from({ length: edges.length / EDGE }, (_, e): Vec2 => [
            edges[e * EDGE] as number,
            edges[e * EDGE + 1] as number,
          ]);
          for (const [n, dx, dy] of places) {
            const corner = from[n % from.length] as Vec2;
            const [px, py] =
              n % 3 === 0
                ? [minX + ((n % 17) / 17) * (maxX - minX), minY + ((n % 23) / 23) * (maxY - minY)]
                : corner;
            const [x, y] = [px + dx, py + dy];
            expect(noFits.depth(0, 1, x, y)).toBeCloseTo(depthByAll(edges, x, y), 7);
          }
        },
      ),
      { numRuns: fixedRuns(600) },
    );
  });
});

describe('the depth in a polygon whose rings touch', () => {
  const square = '00 90 99 09';
  // Two holes that fan out upwards from one corner, 4,5; as two rings, and as one that touches itself.
  test.each([
    ['two holes', [square, '45 28 38', '45 58 68']],
    ['one ring', [square, '45 28 38 45 58 68']],
  ])('below the corner where two holes meet, by the way to it: %s', (_, texts) => {
    const cells = depthCells(noFitOfRings(texts.map(ringOf)));
    for (const way of [1.5, 0.3, 0.01]) expect(depthIn(cells, 4, 5 - way)).toBeCloseTo(way, 12);
    expect(depthIn(cells, 4.1, 3.2)).toBeCloseTo(Math.hypot(0.1, 1.8), 12);
    expect(depthIn(cells, 3, 7.5)).toBe(0);
    expect(depthIn(cells, 5, 7.5)).toBe(0);
    expect(depthIn(cells, 4, 7)).toBeCloseTo(2 / Math.hypot(1, 3), 12);
  });

  test('in front of a slit without width, by the way to its end', () => {
    const cells = depthCells(noFitOfRings([ringOf('00 90 99 49 45 49 09')]));
    for (const way of [1.5, 0.3, 0.01]) expect(depthIn(cells, 4, 5 - way)).toBeCloseTo(way, 12);
    expect(depthIn(cells, 4.5, 7)).toBeCloseTo(0.5, 12);
  });
});

const noFitOfRings = (rings: readonly (readonly Vec2[])[]): NoFit => ({
  minX: 0,
  minY: 0,
  maxX: 9,
  maxY: 9,
  edges: Float64Array.from(
    rings.flatMap((ring) =>
      ring.flatMap(([x, y], i) => {
        const [toX, toY] = ring[(i + 1) % ring.length] as Vec2;
        return [x, y, toX - x, toY - y, 1 / ((toX - x) ** 2 + (toY - y) ** 2), toY, toX];
      }),
    ),
  ),
});

/** A ring of corners in whole figures, each as two digits, x and y. */
const ringOf = (text: string): Vec2[] =>
  text.split(' ').map((corner): Vec2 => [Number(corner[0]), Number(corner[1])]);

/** How deep a point lies by all edges of a no-fit polygon: winding by angles, way by projection. */
const depthByAll = (edges: Float64Array, x: number, y: number): number => {
  let [turned, least] = [0, Infinity];
  for (let k = 0; k < edges.length; k += EDGE) {
    const [ax, ay] = [(edges[k] as number) - x, (edges[k + 1] as number) - y];
    const [bx, by] = [(edges[k + 6] as number) - x, (edges[k + 5] as number) - y];
    turned += Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
    const [dx, dy] = [bx - ax, by - ay];
    const t = Math.max(0, Math.min(1, -(ax * dx + ay * dy) / (dx * dx + dy * dy)));
    least = Math.min(least, Math.hypot(ax + t * dx, ay + t * dy));
  }
  return Math.abs(turned) > Math.PI ? least : 0;
};
