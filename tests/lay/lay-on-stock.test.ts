import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { polygon, rectangle } from '../../src/geometry/loop.ts';
import { circle } from '../../src/geometry/shapes.ts';
import type { LayRequest, PartToLay } from '../../src/lay/sheets/request.ts';
import { fuzzRuns, largeSize } from '../helpers/extent.ts';
import { expectSound } from '../helpers/laid-on-stock.ts';
import { laidIn, part, remnant, request, sheet, STOCK_ONE } from '../helpers/lay-requests.ts';
import { areaOf, RECTANGLES_ON_STOCK, requestOf } from '../helpers/rectangle-instances.ts';

type OnStock = (typeof RECTANGLES_ON_STOCK)[number];

const ANGLE = polygon([0, 0], [200, 0], [200, 40], [40, 40], [40, 150], [0, 150]);
const TRIANGLE = polygon([0, 0], [160, 0], [0, 120]);
const ROUNDED = [
  { x: 10, y: 0, bulge: 0 },
  { x: 90, y: 0, bulge: Math.tan(Math.PI / 8) },
  { x: 100, y: 10, bulge: 0 },
  { x: 100, y: 60, bulge: 0 },
  { x: 0, y: 60, bulge: 0 },
  { x: 0, y: 10, bulge: Math.tan(Math.PI / 8) },
];
const OFFCUT = polygon([0, 0], [500, 0], [500, 150], [250, 350], [0, 350]);

describe('parts on sheets and remnants', () => {
  test('whatever is laid on whatever keeps its distances, and nothing is lost', () => {
    const outline = fc.constantFrom(
      ANGLE,
      TRIANGLE,
      ROUNDED,
      rectangle(0, 0, 130, 70),
      circle([0, 0], 45),
    );
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            outline,
            quantity: fc.integer({ min: 1, max: 4 }),
            mayTurnOver: fc.boolean(),
            grain: fc.constantFrom('free', 'along', 'across') as fc.Arbitrary<PartToLay['grain']>,
            turnsDeg: fc.constantFrom([0], [0, 180], [0, 90, 180, 270], 'any' as const),
          }),
          { minLength: 1, maxLength: 4 },
        ),
        fc.integer({ min: 0, max: 12 }),
        fc.integer({ min: 0, max: 25 }),
        fc.constantFrom(0, 10, 45),
        fc.integer({ min: 0, max: 40 }),
        (given, gapMm, edgeMm, clampsMm, steps) => {
          const asked = request(
            given.map(({ outline: loop, ...more }, i) => part(`part ${i}`, loop, more)),
            {
              gapMm,
              edgeMm,
              clampsMm,
              pieces: [
                remnant('offcut', OFFCUT, { holes: [circle([120, 100], 40)], grain: 'y' }),
                sheet('small', 400, 300, { count: 1 }),
                sheet('large', 900, 500, { count: 2, shears: { x: [350, 700], y: [300] } }),
              ],
            },
          );
          expectSound(asked, laidIn(steps, asked));
        },
      ),
      { numRuns: fuzzRuns(12) },
    );
  });

  test('the same seed and steps give the same layout, and more steps none that is worse', () => {
    const asked = request([
      part('angle', ANGLE, { quantity: 9 }),
      part('triangle', TRIANGLE, { quantity: 6 }),
    ]);
    expect(laidIn(120, asked)).toEqual(laidIn(120, asked));
    expect(laidIn(120, asked, 2)).not.toEqual(laidIn(120, asked));
    const [few, many] = [laidIn(20, asked).aim, laidIn(120, asked).aim];
    expect(many.cost).toBeLessThanOrEqual(few.cost);
  });

  test('fewer sheets than the first layout takes: angles go head to tail', () => {
    // Half of them under another name, for sixteen equal parts would be laid as a lattice at once.
    const asked = request(
      ['front angle', 'rear angle'].map((name) => part(name, ANGLE, { quantity: 8 })),
      { pieces: [sheet('sheet', 460, 430)], gapMm: 0, edgeMm: 0 },
    );
    const laid = laidIn(2500, asked);
    expectSound(asked, laid);
    expect(laid.filled.length).toBeLessThan(laidIn(0, asked).filled.length);
  });

  test('a remnant is used up before a sheet is begun', () => {
    const asked = request([part('plate', rectangle(0, 0, 140, 100), { quantity: 5 })], {
      pieces: [sheet('sheet', 1000, 500), remnant('offcut', OFFCUT)],
    });
    const laid = laidIn(200, asked);
    expectSound(asked, laid);
    expect(laid.filled.map(({ piece }) => piece)).toEqual([1]);
    expect(laid.aim.cost).toBe(0);
    expect(laid.isProved).toBe(true);
  });

  test.each([
    { x: [450], y: [] },
    { x: [], y: [220] },
    { x: [330, 660], y: [260] },
  ])('no part lies over a shear: %o', (shears) => {
    const asked = request(
      [
        part('plate', rectangle(0, 0, 140, 90), { quantity: 8 }),
        part('angle', ANGLE, { quantity: 7 }),
      ],
      { pieces: [sheet('sheet', 1000, 500, { shears })], clampsMm: 20 },
    );
    for (const steps of [0, 60]) expectSound(asked, laidIn(steps, asked));
  });

  test('a small part lies in the hole of a large one', () => {
    const ring = part('ring', circle([0, 0], 100), { holes: [circle([0, 0], 70)] });
    const asked = request([ring, part('disc', circle([0, 0], 60))], {
      pieces: [sheet('just so large', 216, 216)],
    });
    const laid = laidIn(100, asked);
    expectSound(asked, laid);
    expect(laid.filled).toHaveLength(1);
  });

  test('a part with a wish for the grain lies with it, and on no remnant of which nobody knows it', () => {
    const strap = part('strap', rectangle(0, 0, 300, 40), { grain: 'across', quantity: 2 });
    const asked = request([strap], {
      pieces: [
        remnant('unknown', rectangle(0, 0, 600, 400)),
        remnant('known', rectangle(0, 0, 600, 400), { grain: 'y' }),
        ...STOCK_ONE,
      ],
    });
    const laid = laidIn(100, asked);
    expectSound(asked, laid);
    // Across a grain that runs along y the strap lies along x.
    expect(laid.filled.map(({ piece }) => piece)).toEqual([1]);
    expect(laid.filled[0]?.parts.map(({ turnDeg }) => turnDeg % 180)).toEqual([0, 0]);
  });

  test('a part is turned over only where that is allowed', () => {
    const sides = (mayTurnOver: boolean) =>
      laidIn(
        2000,
        request([part('triangle', TRIANGLE, { quantity: 2, turnsDeg: [0, 180], mayTurnOver })], {
          pieces: [sheet('sheet', 330, 170)],
        }),
      ).filled.flatMap(({ parts }) => parts.map((p) => p.turnedOver));
    expect(sides(false)).toEqual([false, false]);
    expect(sides(true)).toHaveLength(2);
  });

  test('parts that belong together come onto one sheet', () => {
    const asked = request(
      [
        part('large', rectangle(0, 0, 600, 400), { quantity: 2 }),
        part('left', rectangle(0, 0, 300, 200), { together: 'pair' }),
        part('right', rectangle(0, 0, 300, 200), { together: 'pair' }),
      ],
      { pieces: [sheet('sheet', 1000, 420)] },
    );
    const laid = laidIn(400, asked);
    expectSound(asked, laid);
    const on = laid.filled.map(({ parts }) => parts.map(({ name }) => name));
    expect(on.some((names) => names.includes('left') && names.includes('right'))).toBe(true);
  });

  test('where stock does not do for all, those that should be first are laid', () => {
    const asked = request(
      [
        part('wide', rectangle(0, 0, 900, 450)),
        part('wanted', rectangle(0, 0, 300, 200), { isFirst: true }),
      ],
      { pieces: [sheet('sheet', 1000, 500, { count: 1 })] },
    );
    const laid = laidIn(200, asked);
    expectSound(asked, laid);
    expect(laid.left).toEqual([
      {
        name: 'wide',
        count: 1,
        reason: 'there is no room left on the sheets and remnants in stock',
      },
    ]);
  });

  test('the clean rectangle that is left grows with the search', () => {
    const asked = request([
      part('angle', ANGLE, { quantity: 5 }),
      part('triangle', TRIANGLE, { quantity: 4 }),
    ]);
    const [first, later] = [laidIn(0, asked), laidIn(600, asked)];
    expectSound(asked, later);
    expect(later.aim.cleanMm2).toBeGreaterThan(first.aim.cleanMm2);
  });

  test('price counts where every sheet has one, and number where not', () => {
    const plates = [part('plate', rectangle(0, 0, 180, 180), { quantity: 4 })];
    const cheap = [
      sheet('large', 800, 400, { price: 100 }),
      sheet('small', 400, 200, { price: 30 }),
    ];
    const asked = request(plates, { pieces: cheap, gapMm: 2, edgeMm: 2 });
    const laid = laidIn(500, asked);
    expectSound(asked, laid);
    expect([laid.aim.cost, laid.filled.length]).toEqual([60, 2]);
    const plate = [part('plate', rectangle(0, 0, 180, 180), { quantity: 16 })];
    const four = request(plate, {
      pieces: [sheet('large', 800, 800, { price: 100 }), sheet('small', 400, 400, { price: 20 })],
      gapMm: 2,
      edgeMm: 2,
    });
    const small = laidIn(500, four);
    expectSound(four, small);
    expect([small.aim.cost, small.filled.length]).toEqual([80, 4]);
    const uncosted = request(plates, {
      ...asked,
      pieces: cheap.map((piece) => ({ ...piece, price: undefined })),
    });
    expect(laidIn(500, uncosted).filled).toHaveLength(1);
  });
});

describe('what cannot be laid is told, in little time', () => {
  const reasonFor = (asked: LayRequest): string | undefined => {
    const laid = laidIn(5, asked);
    expectSound(asked, laid);
    return laid.left[0]?.reason;
  };

  test.each([
    [
      'a part larger than every sheet',
      request([part('long', rectangle(0, 0, 1200, 10))]),
      /1200 x 10 mm is larger than every sheet/,
    ],
    [
      'an edge that is too wide',
      request([part('plate', rectangle(0, 0, 990, 490))]),
      /leaves no edge of 8 mm/,
    ],
    [
      'a gap wider than the sheet',
      request([part('plate', rectangle(0, 0, 90, 90), { quantity: 2 })], {
        gapMm: 2000,
        edgeMm: 2000,
      }),
      /leaves no edge of 2000 mm/,
    ],
    [
      'no stock',
      request([part('plate', rectangle(0, 0, 90, 90))], { pieces: [] }),
      /no sheet of this material/,
    ],
    [
      'a turn that is not allowed',
      request([part('strap', rectangle(0, 0, 40, 700), { turnsDeg: [0] })]),
      /larger than every sheet/,
    ],
    [
      'grain',
      request([part('strap', rectangle(0, 0, 700, 40), { grain: 'across' })]),
      /as its bend wants it.*turned by quarters/,
    ],
  ])('%s', (_, asked, reason) => {
    expect(reasonFor(asked)).toMatch(reason);
  });

  test('a gap wider than the sheet lets one part lie on each', () => {
    const asked = request([part('plate', rectangle(0, 0, 90, 90), { quantity: 2 })], {
      gapMm: 2000,
    });
    expect(laidIn(5, asked).filled).toHaveLength(2);
  });

  test('a quantity of 1,000,000,000, and 10,000 parts', () => {
    const washers = part('washer', circle([0, 0], 45), { quantity: 1e9, turnsDeg: [0] });
    const laid = laidIn(0, request([washers]));
    expect(laid.left).toEqual([
      {
        name: 'washer',
        count: 1e9 - 1000,
        reason: expect.stringContaining('more than 1000 parts'),
      },
    ]);
    const count = largeSize(10_000);
    const many = Array.from({ length: count }, (_, i) =>
      part(`part ${i}`, rectangle(0, 0, 20 + (i % 7), 30), { turnsDeg: [0] }),
    );
    const some = laidIn(2, request(many, { pieces: [sheet('sheet', 3000, 1500, { count: 1 })] }));
    const laidCount = some.filled.reduce((sum, { parts }) => sum + parts.length, 0);
    expect(laidCount + some.left.reduce((sum, { count }) => sum + count, 0)).toBe(count);
  });
});

test('the witness sees a part that is moved out of its place', () => {
  const asked = request([part('angle', ANGLE, { quantity: 3 })]);
  const laid = laidIn(10, asked);
  const [first] = laid.filled;
  const moved = first?.parts.map((p, i) => (i === 0 ? { ...p, xMm: p.xMm - 500 } : p)) ?? [];
  expect(() => expectSound(asked, { ...laid, filled: [{ piece: 0, parts: moved }] })).toThrow();
});

test('100 rectangles on a limited stock of six sizes (Hopper and Turton 2002, M1a) come on the least area that sheets can have', () => {
  const instance = RECTANGLES_ON_STOCK.find(({ name }) => name === 'M1a') as OnStock;
  const asked = requestOf(instance);
  const laid = laidIn(4000, asked);
  expectSound(asked, laid);
  expect(laid.left).toEqual([]);
  // Sheets come in areas of whole hundreds, and the rectangles take 2520.
  expect(areaOf(instance)).toBe(2520);
  expect([laid.aim.cost, laid.isProved]).toEqual([2600, true]);
});
