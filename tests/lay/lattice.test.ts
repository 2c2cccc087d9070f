import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Loop, polygon, rectangle } from '../../src/geometry/loop.ts';
import { signedArea } from '../../src/geometry/measure.ts';
import { circle } from '../../src/geometry/shapes.ts';
import { bestLattices } from '../../src/lay/lattice/best-lattices.ts';
import type { LaidOnStock, PartToLay } from '../../src/lay/sheets/request.ts';
import { stockTask } from '../../src/lay/sheets/stock-task.ts';
import { NoFits } from '../../src/lay/shapes.ts';
import { fuzzRuns, IS_FULL } from '../helpers/extent.ts';
import { expectSound } from '../helpers/laid-on-stock.ts';
import { laidIn, part, remnant, request, sheet } from '../helpers/lay-requests.ts';

const L = polygon([0, 0], [120, 0], [120, 40], [40, 40], [40, 100], [0, 100]);
const TRIANGLE = polygon([0, 0], [110, 20], [30, 80]);
const TRAPEZOID = polygon([0, 0], [120, 0], [80, 50], [20, 50]);
const U = polygon([0, 0], [96, 0], [96, 80], [66, 80], [66, 30], [30, 30], [30, 80], [0, 80]);
const T = polygon([30, 0], [60, 0], [60, 50], [90, 50], [90, 80], [0, 80], [0, 50], [30, 50]);
const DISC = circle([0, 0], 40);

/** Share of the plane that the densest lattice covers. */
const densityOf = (outline: Loop, more: Partial<PartToLay> = {}): number => {
  const asked = request([part('part', outline, more)], { gapMm: 0, edgeMm: 0 });
  const { task } = stockTask(asked);
  const choices = task.items[0]?.[0] ?? [];
  const [best] = bestLattices(new NoFits(task.shapes), task.shapes, choices, 1);
  return signedArea(outline) / (best?.areaEach ?? Infinity);
};

describe('the densest order that repeats', () => {
  test.each([
    // Two of a triangle make a parallelogram, and so do two of a trapezoid: nothing is lost.
    ['a triangle', TRIANGLE, 1],
    ['a right triangle', polygon([0, 0], [100, 0], [0, 70]), 1],
    ['a trapezoid', TRAPEZOID, 1],
    ['a parallelogram', polygon([0, 0], [90, 0], [120, 50], [30, 50]), 1],
    ['a rectangle', rectangle(0, 0, 90, 50), 1],
    // Any four-sided figure covers the plane with itself turned by half.
    ['a four-sided figure', polygon([0, 0], [100, 10], [80, 70], [10, 50]), 1],
    // Two turned into each other fill 160 x 100 but for a hole of 80 x 20 between their legs.
    ['an L', L, (2 * 7200) / (160 * 100)],
    // A leg of each in the slot of the next: two in every 126 x 110, and 3 mm where corners are filled.
    ['a U', U, (2 * 5880) / (126 * 113)],
    // Stems beside each other, bars above and below: two in every 90 x 110.
    ['a T', T, (2 * 4200) / (90 * 110)],
  ])('%s', (_, outline, byHand) => {
    const density = densityOf(outline);
    expect(density).toBeGreaterThan(byHand - 1e-5);
    // Grown outlines are rounded to a ten-thousandth of a millimetre.
    expect(density).toBeLessThan(1 + 1e-5);
  });

  test('discs lie in hexagons: pi / (2 sqrt 3), less what their chords take', () => {
    // Lagrange 1773 for lattices; as in Conway and Sloane, Sphere Packings, ch. 1 (from memory).
    const hexagonal = Math.PI / (2 * Math.sqrt(3));
    expect(densityOf(DISC)).toBeLessThan(hexagonal);
    expect(densityOf(DISC)).toBeGreaterThan(0.985 * hexagonal);
  });

  test('only turns that are allowed are used', () => {
    expect(densityOf(TRIANGLE, { turnsDeg: [0] })).toBeLessThan(0.7);
    expect(densityOf(TRIANGLE, { turnsDeg: [0, 180] })).toBeCloseTo(1, 5);
    // A right triangle and its mirror image make a rectangle or a kite, whatever the turns.
    const right = polygon([0, 0], [100, 0], [0, 100]);
    expect(densityOf(right, { turnsDeg: [0], mayTurnOver: true })).toBeGreaterThan(0.6);
  });

  test('any triangle and its half turn', () => {
    const corner = fc.tuple(fc.integer({ min: 0, max: 150 }), fc.integer({ min: 0, max: 150 }));
    fc.assert(
      fc.property(corner, corner, corner, (a, b, c) => {
        const area = signedArea(polygon(a, b, c));
        fc.pre(Math.abs(area) > 1000);
        expect(densityOf(area > 0 ? polygon(a, b, c) : polygon(a, c, b))).toBeGreaterThan(0.999);
      }),
      { numRuns: fuzzRuns(60) },
    );
  });
});

const counts = ({ filled }: LaidOnStock): number[] => filled.map(({ parts }) => parts.length);

describe('many equal parts on sheets', () => {
  const BIG = [sheet('sheet', 2000, 1000)];

  test.each([
    ['an L', L, 190],
    ['a triangle', TRIANGLE, 320],
    ['a trapezoid', TRAPEZOID, 320],
    ['a U', U, 200],
    ['a disc', DISC, 250],
    ['a T', T, 270],
  ])('%s: a sheet holds as many as an old hand gets on it, with all gaps', (_, outline, least) => {
    const asked = request([part('part', outline, { quantity: IS_FULL ? 1000 : least + 30 })], {
      pieces: BIG,
    });
    const laid = laidIn(0, asked);
    expectSound(asked, laid);
    expect(laid.left).toEqual([]);
    expect(counts(laid)[0]).toBeGreaterThanOrEqual(least);
    if (outline === U) expect(laidIn(0, asked)).toEqual(laid);
  });

  test('whatever the outline, turned and turned over: nothing overlaps, nothing is lost', () => {
    const corners = fc.array(fc.integer({ min: 15, max: 100 }), { minLength: 3, maxLength: 9 });
    fc.assert(
      fc.property(
        corners,
        fc.boolean(),
        fc.constantFrom([0], [0, 180], [0, 90, 180, 270], 'any' as const),
        fc.integer({ min: 0, max: 6 }),
        (radii, mayTurnOver, turnsDeg, gapMm) => {
          const star = polygon(
            ...radii.map((radius, k): readonly [number, number] => {
              const angle = (2 * Math.PI * k) / radii.length;
              return [radius * Math.cos(angle), radius * Math.sin(angle)];
            }),
          );
          const asked = request([part('part', star, { quantity: 40, mayTurnOver, turnsDeg })], {
            pieces: [sheet('sheet', 900, 700)],
            gapMm,
          });
          expectSound(asked, laidIn(0, asked));
        },
      ),
      { numRuns: fuzzRuns(40) },
    );
  });

  test('with clamps, on a sheared sheet and round what was cut before', () => {
    const asked = request([part('part', L, { quantity: 90 })], {
      clampsMm: 60,
      pieces: [
        remnant('R1', polygon([0, 0], [900, 0], [900, 300], [500, 600], [0, 600]), {
          holes: [circle([300, 250], 80)],
        }),
        sheet('sheet', 1500, 800, { shears: { x: [900], y: [] } }),
      ],
    });
    const laid = laidIn(0, asked);
    expectSound(asked, laid);
    expect(laid.left).toEqual([]);
    expect(laid.filled).toHaveLength(2);
  });

  test('the grain is kept where a bend wishes it', () => {
    const asked = request([part('part', TRIANGLE, { quantity: 40, grain: 'across' })], {
      pieces: [sheet('sheet', 1000, 500, { grain: 'y' })],
    });
    const laid = laidIn(0, asked);
    expectSound(asked, laid);
    const turns = new Set(laid.filled.flatMap(({ parts }) => parts.map((p) => p.turnDeg % 180)));
    expect([...turns]).toEqual([0]);
  });

  test('others lie beside them, and take no more sheets than without an order', () => {
    const mixed = [
      part('part', L, { quantity: 60 }),
      part('plate', rectangle(0, 0, 430, 280), { quantity: 3 }),
      part('strap', rectangle(0, 0, 900, 30), { quantity: 2 }),
    ];
    const asked = request(mixed, { pieces: [sheet('sheet', 1250, 1000)] });
    const laid = laidIn(1, asked);
    expectSound(asked, laid);
    expect([laid.left, laid.filled.length]).toEqual([[], 1]);
  });
});
