import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { polygon } from '../../src/geometry/loop.ts';
import { obround } from '../../src/geometry/shapes.ts';
import type { FlatCutout, FlatPattern, FlatVertex } from '../../src/model/flat.ts';
import type { Cutter, Shop } from '../../src/model/shop.ts';
import { findingsOf, plate, round, sheet } from '../helpers/plate.ts';
import { PERFECT_CUTTER, shopWith } from '../helpers/shops.ts';

/** Limits a shop may have written down; the sheet of `plate` is 3 mm thick. */
const MEASURED: Partial<Cutter> = {
  kerf: [{ thickness: 3, kerf: 1.5 }],
  leastHole: [
    { upTo: 2, mm: 3 },
    { mm: 4, thicknesses: 1.5 },
  ],
  leastSlot: [{ kerfs: 2 }],
  leastWeb: [{ thicknesses: 2 }],
  leastEdge: [{ mm: 5 }],
};

/** Findings of one rule as `severity`. */
const severities = (rule: string, flat: FlatPattern, shop: Shop): string[] =>
  findingsOf(flat, { shop })
    .filter((f) => f.rule === rule)
    .map((f) => f.severity);
const messageOf = (rule: string, flat: FlatPattern, shop: Shop): string =>
  findingsOf(flat, { shop }).find((f) => f.rule === rule)?.message ?? '';
const slot = (width: number, length: number, turnDeg = 0): FlatCutout => ({
  kind: 'loop',
  panel: 'leg A',
  from: 'holesA 1',
  loop: obround([40, 25], width, length, turnDeg),
});

describe("'hole-below-least'", () => {
  const shop = shopWith(MEASURED);
  // 1.5 x 3 mm = 4.5 mm is more than 4 mm; below a kerf of 1.5 mm nothing can be cut; a slot takes
  // 2 kerfs, 3 mm.
  test.each([
    ['a hole of the least diameter', round('holesA 1', 30, 20, 4.5), []],
    ['a hole just under it', round('holesA 1', 30, 20, 4.499), ['warn']],
    ['a hole of one kerf', round('holesA 1', 30, 20, 1.5), ['warn']],
    ['a hole narrower than the cut', round('holesA 1', 30, 20, 1.499), ['stop']],
    ['a slot of the least width', slot(3, 12), []],
    ['a slot just under it', slot(2.999, 12), ['warn']],
    ['a slot just under it, on the skew', slot(2.999, 12, 37), ['warn']],
    ['a slot narrower than the cut', slot(1.4, 12, 90), ['stop']],
  ] as [string, FlatCutout, string[]][])('%s', (_, hole, expected) => {
    expect(severities('hole-below-least', plate([hole]), shop)).toEqual(expected);
  });

  test('an assumed shop does not stop a part', () => {
    expect(
      severities('hole-below-least', plate([round('holesA 1', 30, 20, 1)]), {
        ...shop,
        isAssumed: true,
      }),
    ).toEqual(['warn']);
  });

  test('an arm of an L is as narrow as it is, wherever the L lies', () => {
    const l = (arm: number): FlatCutout => ({
      kind: 'loop',
      panel: 'leg A',
      from: 'cut',
      loop: polygon([20, 10], [50, 10], [50, 10 + arm], [32, 10 + arm], [32, 40], [20, 40]),
    });
    expect(severities('hole-below-least', plate([l(3.01)]), shop)).toEqual([]);
    expect(severities('hole-below-least', plate([l(2.99)]), shop)).toEqual(['warn']);
  });

  test('the figure in the message passes', () => {
    expect(messageOf('hole-below-least', plate([round('holesA 1', 30, 20, 4)]), shop)).toContain(
      'Make it 4.5 or more, or write drill behind its size',
    );
  });
});

describe("'web-too-thin'", () => {
  const shop = shopWith(MEASURED);
  // 2 x 3 mm between two holes, 5 mm to the edge.
  test.each([
    ['6 mm between holes', [round('a', 20, 20, 10), round('b', 36, 20, 10)], 0],
    ['just under 6 mm between holes', [round('a', 20, 20, 10), round('b', 35.99, 20, 10)], 1],
    ['5 mm to the edge', [round('a', 10, 20, 10)], 0],
    ['just under 5 mm to the edge', [round('a', 9.99, 20, 10)], 1],
    [
      'a slot near the edge',
      [{ kind: 'loop', panel: 'leg A', from: 'a', loop: obround([40, 8.9], 8, 20, 0) }],
      1,
    ],
    ['holes that meet are another matter', [round('a', 20, 20, 10), round('b', 28, 20, 10)], 0],
    ['a hole over the edge is another matter', [round('a', 3, 20, 10)], 0],
    ['a hole off the metal is another matter', [round('a', -6, 20, 10)], 0],
  ] as [string, FlatCutout[], number][])('%s', (_, holes, count) => {
    expect(severities('web-too-thin', plate(holes), shop)).toEqual(Array(count).fill('warn'));
  });

  test('the messages say how far to move', () => {
    expect(
      messageOf('web-too-thin', plate([round('a', 20, 20, 10), round('b', 34, 20, 10)]), shop),
    ).toContain('Move them 2 mm apart');
    expect(messageOf('web-too-thin', plate([round('a', 8.5, 20, 10)]), shop)).toContain(
      'Move it 1.5 mm inwards',
    );
  });
});

/** A plate with a notch of this width in its upper edge, cut as a relief. */
const notched = (width: number): FlatPattern => {
  const points = polygon(
    [0, 0],
    [100, 0],
    [100, 40],
    [50 + width, 40],
    [50 + width, 32],
    [50, 32],
    [50, 40],
    [0, 40],
  );
  const outline = points.map((v, i): FlatVertex => ({
    ...v,
    origin:
      i >= 3 && i <= 5
        ? { kind: 'relief', panel: 'leg A' }
        : { kind: 'edge', panel: 'leg A', edge: 0 },
  }));
  return plate([], { outline, bends: [] });
};

test.each([
  [3, []],
  [2.99, ['warn']],
  [1.49, ['stop']],
])(
  "'relief-too-narrow': a notch of %d mm where 2 kerfs of 1.5 mm are asked for",
  (width, expected) => {
    expect(severities('relief-too-narrow', notched(width), shopWith(MEASURED))).toEqual(expected);
    if (expected.length > 0)
      expect(messageOf('relief-too-narrow', notched(width), shopWith(MEASURED))).toContain(
        'leastSlot to 3 or more',
      );
  },
);

describe("'sheet-warps'", () => {
  const plasma: Cutter = { ...PERFECT_CUTTER, name: 'torch', process: 'plasma', warpsUpTo: 1.5 };
  test.each([
    [1.5, ['warn']],
    [1.51, []],
  ])('%d mm', (thicknessMm, expected) => {
    expect(severities('sheet-warps', plate([], { thicknessMm }), shopWith(plasma))).toEqual(
      expected,
    );
  });

  test('names the cutter that would do it', () => {
    const shop = { ...shopWith(plasma), cutters: [plasma, { ...PERFECT_CUTTER, name: 'cold' }] };
    expect(messageOf('sheet-warps', plate([], { thicknessMm: 1 }), shop)).toContain(
      "Cut it on cutter 'cold'",
    );
  });
});

describe("'no-cutter-takes-sheet'", () => {
  const shop = shopWith({ thickness: { from: 1, to: 6 } });
  test.each([
    [0.99, ['stop']],
    [1, []],
    [6, []],
    [6.01, ['stop']],
  ])('%d mm where 1 to 6 mm are cut', (thicknessMm, expected) => {
    expect(severities('no-cutter-takes-sheet', plate([], { thicknessMm }), shop)).toEqual(expected);
    expect(
      severities('no-cutter-takes-sheet', plate([], { thicknessMm }), { ...shop, isAssumed: true }),
    ).toEqual(expected.map(() => 'warn'));
  });

  test('the first cutter that takes the sheet cuts it', () => {
    const two = {
      ...shop,
      cutters: [
        { ...PERFECT_CUTTER, thickness: { from: 0.5, to: 2 } },
        { ...PERFECT_CUTTER, name: 'second', leastHole: [{ mm: 8 }] },
      ],
    };
    const holed = (thicknessMm: number) => plate([round('a', 30, 20, 6)], { thicknessMm });
    expect(severities('hole-below-least', holed(2), two)).toEqual([]);
    expect(messageOf('hole-below-least', holed(2.1), two)).toContain("'second'");
  });
});

describe("'blank-too-large'", () => {
  const bed = { length: 200, width: 100 };
  const blank = (width: number, height: number): FlatPattern =>
    plate([], { outline: sheet(width, height), widthMm: width, heightMm: height, bends: [] });
  test.each([
    [200, 100, []],
    [200.01, 100, ['stop']],
    [100, 200, []],
    [100, 200.01, ['stop']],
    [200, 100.01, ['stop']],
    // Its length reaches over the bed, but not over the diagonal of 223.6 mm: askew it fits.
    [210, 5, ['note']],
    [224, 5, ['stop']],
  ])('%d x %d on a bed of 200 x 100', (width, height, expected) => {
    expect(severities('blank-too-large', blank(width, height), shopWith({ bed }))).toEqual(
      expected,
    );
  });

  test('the angle that a long strip is turned by is that of plain trigonometry', () => {
    // 210 cos a + 5 sin a <= 200 and 210 sin a + 5 cos a <= 100 hold together from 19.2 to 27.0
    // degrees: 20 is the first whole one.
    expect(messageOf('blank-too-large', blank(210, 5), shopWith({ bed }))).toContain(
      'turned by 20 degrees',
    );
  });

  test('sheets in stock, for this material and thickness', () => {
    const shop = shopWith(
      {},
      {
        sheets: [
          { ...bed, material: 'steel' },
          { length: 400, width: 400, thickness: 5 },
        ],
      },
    );
    expect(severities('blank-too-large', blank(200, 100), shop)).toEqual([]);
    expect(severities('blank-too-large', blank(201, 100), shop)).toEqual(['warn']);
    expect(severities('blank-too-large', blank(201, 100), { ...shop, sheets: [] })).toEqual([]);
    expect(severities('blank-too-large', { ...blank(201, 100), thicknessMm: 5 }, shop)).toEqual([]);
  });

  test('a remnant in one piece may be longer than any sheet; one with holes is not counted on', () => {
    const strip = { name: 'R1', material: 'steel', thickness: 1.5, length: 900, width: 110 };
    const sheets = [bed];
    const judged = (remnant: object): string[] =>
      severities(
        'blank-too-large',
        { ...blank(800, 100), thicknessMm: 1.5 },
        shopWith({}, { sheets, remnants: [{ ...strip, ...remnant }] }),
      );
    expect(judged({})).toEqual([]);
    expect(judged({ thickness: 2 })).toEqual(['warn']);
    expect(judged({ material: 'aluminium' })).toEqual(['warn']);
    expect(judged({ holes: [{ x: 400, y: 50, diameter: 20 }] })).toEqual(['warn']);
  });

  test('the built-in shop warns and does not stop', () => {
    // The bed of the plasma table is 2500 x 1250, and a sheet in stock is 3000 long.
    expect(severities('blank-too-large', blank(2501, 10), DEFAULT_SHOP)).toEqual(['note']);
    expect(severities('blank-too-large', blank(2900, 1200), DEFAULT_SHOP)).toEqual(['warn']);
  });
});
