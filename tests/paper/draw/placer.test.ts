import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  boxGround,
  discGround,
  doOverlap,
  type Ground,
  type Line2,
  liesWithin,
  runsThrough,
  turnedGround,
} from '../../../src/paper/draw/ground.ts';
import { type Candidate, Placer } from '../../../src/paper/draw/placer.ts';
import type { Vec2 } from '../../../src/geometry/vec2.ts';
import { fuzzRuns } from '../../helpers/extent.ts';

/** What is asked of grounds is held to a general geometry library (@flatten-js/core). */
const polygonOf = ({ corners }: Ground): Flatten.Polygon =>
  new Flatten.Polygon(corners.map(([x, y]) => new Flatten.Point(x, y)));

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const point: fc.Arbitrary<Vec2> = fc.tuple(number(0, 100), number(0, 100));
const text: fc.Arbitrary<Ground> = fc
  .tuple(number(1, 40), number(1, 6), point, number(-180, 180))
  .map(([wide, high, at, deg]) =>
    turnedGround({ minX: 0, minY: -0.2 * high, maxX: wide, maxY: high }, at, deg),
  );
const ground: fc.Arbitrary<Ground> = fc.oneof(
  text,
  fc.tuple(point, number(1, 6)).map(([centre, radius]) => discGround(centre, radius)),
);
const line: fc.Arbitrary<Line2> = fc.tuple(point, point);

describe('grounds', () => {
  test('overlap where they have area in common', () => {
    fc.assert(
      fc.property(ground, ground, (a, b) => {
        const shared = Flatten.BooleanOperations.intersect(polygonOf(a), polygonOf(b)).area();
        // What is on the brink is left to either.
        if (Math.abs(shared) > 1e-3) expect(doOverlap(a, b)).toBe(true);
        if (shared < 1e-9 && polygonOf(a).distanceTo(polygonOf(b))[0] > 1e-3)
          expect(doOverlap(a, b)).toBe(false);
      }),
      { numRuns: fuzzRuns(500) },
    );
  });

  test('are run through by a line that has length within them', () => {
    fc.assert(
      fc.property(ground, line, (a, [from, to]) => {
        const segment = new Flatten.Segment(new Flatten.Point(...from), new Flatten.Point(...to));
        const polygon = polygonOf(a);
        const middles = Array.from({ length: 50 }, (_, k) => {
          const share = (k + 0.5) / 50;
          return new Flatten.Point(
            from[0] + share * (to[0] - from[0]),
            from[1] + share * (to[1] - from[1]),
          );
        });
        const deep = middles.some((p) => polygon.contains(p) && distanceToRim(polygon, p) > 1e-3);
        if (deep) expect(runsThrough(a, [from, to])).toBe(true);
        if (!deep && polygon.distanceTo(segment)[0] > 1e-3)
          expect(runsThrough(a, [from, to])).toBe(false);
      }),
      { numRuns: fuzzRuns(500) },
    );
  });

  test('that touch are clear of each other, and so is a line along an edge', () => {
    const a = boxGround({ minX: 0, minY: 0, maxX: 10, maxY: 4 });
    expect(doOverlap(a, boxGround({ minX: 10, minY: 1, maxX: 12, maxY: 2 }))).toBe(false);
    expect(doOverlap(a, boxGround({ minX: 9.9, minY: 1, maxX: 12, maxY: 2 }))).toBe(true);
    expect(
      runsThrough(a, [
        [-5, 4],
        [20, 4],
      ]),
    ).toBe(false);
    expect(
      runsThrough(a, [
        [-5, 3.9],
        [20, 3.9],
      ]),
    ).toBe(true);
  });
});

const distanceToRim = (polygon: Flatten.Polygon, p: Flatten.Point): number =>
  Math.min(
    ...polygon.toArray().flatMap((face) => {
      const { vertices } = face;
      return vertices.map((from, i) => {
        const to = vertices[(i + 1) % vertices.length] as Flatten.Point;
        return new Flatten.Segment(from, to).distanceTo(p)[0];
      });
    }),
  );

const PAGE = { minX: 0, minY: 0, maxX: 100, maxY: 100 };
const COSTS = { across: 10, crossing: 5 };

const candidate: fc.Arbitrary<Candidate> = fc.record(
  {
    grounds: fc.array(ground, { minLength: 1, maxLength: 2 }),
    cost: fc.integer({ min: 0, max: 20 }),
    lines: fc.array(line, { maxLength: 1 }),
    more: fc.integer({ min: 0, max: 9 }).map((cost) => () => (cost === 9 ? Infinity : cost)),
  },
  { requiredKeys: ['grounds'] },
);

describe('what is placed', () => {
  test('overlaps nothing, stays on the paper, and keeps its lines off the rest', () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(candidate, { minLength: 1, maxLength: 8 }), { maxLength: 8 }),
        ground,
        (asked, first) => {
          const placer = new Placer(PAGE, COSTS);
          placer.take(first);
          const taken: Ground[] = [first];
          for (const candidates of asked) {
            const placed = placer.place(candidates);
            if (placed === undefined) continue;
            for (const own of placed.grounds) {
              expect(liesWithin(own, PAGE)).toBe(true);
              for (const other of taken) expect(doOverlap(own, other)).toBe(false);
            }
            for (const other of taken)
              for (const own of placed.lines ?? []) expect(runsThrough(other, own)).toBe(false);
            taken.push(...placed.grounds);
          }
        },
      ),
      { numRuns: fuzzRuns(300) },
    );
  });

  test('is the cheapest of all that are free, every cost reckoned; the first of equals', () => {
    const obstacle = fc.record({ line, cost: fc.integer({ min: 0, max: 30 }) });
    fc.assert(
      fc.property(
        fc.array(candidate, { minLength: 1, maxLength: 8 }),
        fc.array(obstacle, { maxLength: 8 }),
        (candidates, obstacles) => {
          const placer = new Placer(PAGE, COSTS);
          placer.avoid(...obstacles);
          const costOf = (c: Candidate): number =>
            obstacles
              .filter((o) => c.grounds.some((own) => runsThrough(own, o.line)))
              .reduce((sum, o) => sum + o.cost, (c.cost ?? 0) + (c.more?.() ?? 0));
          const free = candidates.filter((c) => placer.isFree(c) && costOf(c) < Infinity);
          const least = Math.min(...free.map(costOf));
          expect(placer.place(candidates)).toBe(free.find((c) => costOf(c) === least));
        },
      ),
      { numRuns: fuzzRuns(300) },
    );
  });

  test('makes its own lines dearer to write across and to cross, and a shaft crosses none', () => {
    const box = (minX: number, minY: number): Ground =>
      boxGround({ minX, minY, maxX: minX + 4, maxY: minY + 4 });
    const placer = new Placer(PAGE, COSTS);
    placer.place([
      {
        grounds: [box(80, 80)],
        lines: [
          [
            [10, 50],
            [80, 50],
          ],
        ],
      },
    ]);
    const across = { grounds: [box(20, 48)] };
    const crossing = {
      grounds: [box(20, 20)],
      lines: [
        [
          [30, 20],
          [30, 70],
        ],
      ] as Line2[],
    };
    const far = (cost: number) => ({ grounds: [box(60, 10)], cost });
    expect(placer.place([across, far(9)])).toEqual(far(9));
    expect(placer.place([{ ...crossing, shaft: crossing.lines[0] as Line2 }])).toBeUndefined();
    expect(placer.place([crossing, { grounds: [box(60, 20)], cost: 6 }])).toBe(crossing);
    expect(placer.place([across, { grounds: [box(60, 30)], cost: 11 }])).toBe(across);
  });

  test('finds the same place whether places are given at once or in batches that are made on demand', () => {
    const candidate = fc.tuple(text, fc.integer({ min: 0, max: 30 }));
    const batches = fc.array(fc.array(candidate, { minLength: 1, maxLength: 6 }), { maxLength: 6 });
    fc.assert(
      fc.property(
        fc.array(ground, { maxLength: 4 }),
        fc.array(line),
        batches,
        (taken, lines, all) => {
          const asked = all.map((batch) =>
            batch.map(([where, cost]) => ({ grounds: [where], cost })),
          );
          const place = (candidates: Parameters<Placer['place']>[0]): Candidate | undefined => {
            const placer = new Placer(PAGE, COSTS);
            placer.take(...taken);
            placer.avoid(...lines.map((one) => ({ line: one, cost: 7 })));
            return placer.place(candidates);
          };
          expect(
            place(
              asked.map((batch) => ({
                leastCost: Math.min(...batch.map(({ cost }) => cost)),
                places: () => batch,
              })),
            ),
          ).toBe(place(asked.flat()));
        },
      ),
      { numRuns: fuzzRuns(300) },
    );
  });

  test('makes no places that cannot be cheaper than what it has', () => {
    const placer = new Placer(PAGE, COSTS);
    const box = boxGround({ minX: 1, minY: 1, maxX: 5, maxY: 5 });
    const near = { grounds: [box], cost: 3 };
    const never = (): never => {
      throw new Error('looked at');
    };
    expect(placer.place([near, { leastCost: 3, places: never }])).toBe(near);
  });
});
