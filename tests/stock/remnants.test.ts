import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { loopExtents } from '../../src/geometry/extents.ts';
import { loopGap } from '../../src/geometry/gap.ts';
import { isInside } from '../../src/geometry/inside.ts';
import { type Loop, polygon, rectangle } from '../../src/geometry/loop.ts';
import { signedArea } from '../../src/geometry/measure.ts';
import { circle } from '../../src/geometry/shapes.ts';
import type { LaidPart, LaidSheet } from '../../src/model/laid.ts';
import { laidRegion, leftOf, type PartOutlines } from '../../src/stock/left.ts';
import { cleanRectangle, type KeptPiece, remnantsOf } from '../../src/stock/remnants.ts';
import { commonArea } from '../helpers/clipper.ts';
import { fuzzRuns } from '../helpers/extent.ts';

const GAP = 4;

const sizesOf = (kept: readonly KeptPiece[]): number[][] =>
  kept.map(({ box }) =>
    [box.maxX - box.minX, box.maxY - box.minY].map((mm) => Number(mm.toFixed(6))),
  );

const lying = (name: string, x: number, y: number, turnDeg = 0, turnedOver = false): LaidPart => ({
  name,
  copy: 1,
  turnedOver,
  turnDeg,
  xMm: x,
  yMm: y,
});

const sheetWith = (
  parts: readonly LaidPart[],
  more: Partial<LaidSheet['stock']> = {},
): LaidSheet => ({
  name: 's275-3-1',
  stock: {
    name: '2500 x 1250',
    isRemnant: false,
    outline: rectangle(0, 0, 2500, 1250),
    holes: [],
    ...more,
  },
  material: 's275',
  thicknessMm: 3,
  gapMm: GAP,
  edgeMm: 5,
  parts,
});

const EAR = polygon([0, 0], [300, 0], [300, 80], [120, 200], [0, 200]);
const OUTLINES: PartOutlines = new Map([
  ['plate', { outline: rectangle(0, 0, 800, 600), holes: [] }],
  ['ring', { outline: circle([0, 0], 300), holes: [circle([0, 0], 250)] }],
  ['ear', { outline: EAR, holes: [circle([60, 60], 20)] }],
]);

describe('clean rectangles that are left', () => {
  test('one plate in a corner leaves a strip beside it and one above it', () => {
    const kept = remnantsOf(sheetWith([lying('plate', 5, 5)]), OUTLINES);
    // 5 + 800 + 4, and a hair for chords that the plate does not need: whole millimetres below it.
    expect(sizesOf(kept)).toEqual([
      [1690, 1250],
      [809, 640],
    ]);
    expect(kept[0]?.box.maxX).toBeCloseTo(2499.1, 6);
  });

  test('nothing is kept that is too small, and least sizes can be asked for', () => {
    const sheet = sheetWith([lying('plate', 5, 5)], { outline: rectangle(0, 0, 900, 700) });
    expect(remnantsOf(sheet, OUTLINES)).toEqual([]);
    const options = { leastShortMm: 80, leastLongMm: 80 };
    expect(sizesOf(remnantsOf(sheet, OUTLINES, options))).toEqual([
      [900, 90],
      [90, 609],
    ]);
  });

  test('what falls out of a large hole is kept too', () => {
    const kept = remnantsOf(sheetWith([lying('ring', 305, 305)]), OUTLINES);
    const [slug] = kept.filter(({ box }) => box.maxX < 600 && box.maxY < 600);
    // The square in a circle of 250 less the gap: 246 times the root of 2.
    expect((slug?.box.maxX ?? 0) - (slug?.box.minX ?? 0)).toBeGreaterThan(340);
    expect((slug?.box.maxX ?? 0) - (slug?.box.minX ?? 0)).toBeLessThan(348);
  });

  test('of a sheet with nothing on it all is left, whole', () => {
    const kept = remnantsOf(sheetWith([]), OUTLINES);
    expect(kept.map(({ outline }) => outline)).toEqual([rectangle(0, 0, 2500, 1250)]);
  });
});

describe('outlines that are left', () => {
  test('keep the holes of the sheet, lose narrow strips, and are rounded inwards', () => {
    const [kept, ...others] = remnantsOf(
      sheetWith([lying('plate', 12, 5)], { holes: [circle([2000, 600], 100)] }),
      OUTLINES,
      { keep: 'outline' },
    );
    expect(others).toEqual([]);
    expect(kept?.holes).toHaveLength(1);
    // The strip of 8 mm on the left of the plate is gone, and so the piece begins beside it above.
    expect(loopExtents(kept?.outline ?? [])).toEqual({
      minX: 0.3,
      minY: 0.3,
      maxX: 2499.7,
      maxY: 1249.7,
    });
    expect(isInside(kept?.outline ?? [], [4, 300])).toBe(false);
    expect(kept?.outline.length).toBeLessThan(12);
  });

  test('a sheet that falls into two pieces leaves two', () => {
    const wall = rectangle(0, 0, 100, 1250);
    const kept = remnantsOf(
      sheetWith([lying('wall', 1000, 0)]),
      new Map([['wall', { outline: wall, holes: [] }]]),
      {
        keep: 'outline',
      },
    );
    expect(kept.map(({ outline }) => Math.round(signedArea(outline) / 1e4))).toEqual([174, 124]);
  });
});

const PART = fc.record({
  name: fc.constantFrom('plate', 'ring', 'ear'),
  xMm: fc.integer({ min: 0, max: 2500 }),
  yMm: fc.integer({ min: 0, max: 1250 }),
  turnDeg: fc.constantFrom(0, 90, 180, 37.5, 271),
  turnedOver: fc.boolean(),
  copy: fc.constant(1),
});

test('whatever is left lies on the sheet, and clear of every part by the gap', () => {
  fc.assert(
    fc.property(
      fc.array(PART, { minLength: 1, maxLength: 4 }),
      fc.constantFrom('rectangles' as const, 'outline' as const),
      (parts, keep) => {
        const sheet = sheetWith(parts, { holes: [circle([1800, 700], 150)] });
        const laid = parts.map((part) => {
          const shape = OUTLINES.get(part.name);
          if (shape === undefined) throw new Error(part.name);
          return laidRegion(part, shape);
        });
        const kept = remnantsOf(sheet, OUTLINES, { keep });
        const net = (a: Loop, b: { outline: Loop; holes: readonly Loop[] }): number =>
          commonArea(a, b.outline) - b.holes.reduce((sum, h) => sum + commonArea(a, h), 0);
        for (const { outline, holes } of kept) {
          const area = signedArea(outline);
          // Its own holes are no metal of it: all of them lie where parts or holes were.
          const metal = area - holes.reduce((sum, h) => sum + signedArea(h), 0);
          expect(metal).toBeGreaterThan(20_000 - 1);
          expect(commonArea(outline, sheet.stock.outline)).toBeCloseTo(area, 0);
          for (const part of laid)
            expect(
              net(outline, part) - holes.reduce((sum, h) => sum + net(h, part), 0),
            ).toBeLessThan(0.5);
          for (const part of laid)
            for (const edge of [part.outline, ...part.holes])
              for (const own of [outline, ...holes])
                expect(loopGap(edge, own, GAP)).toBeGreaterThan(GAP - 0.01);
        }
      },
    ),
    { numRuns: fuzzRuns(25) },
  );
});

test('areas add up: parts, what is left, and the gaps between them are the sheet', () => {
  const sheet = { ...sheetWith([lying('plate', 100, 100), lying('ear', 1500, 300, 90)]), gapMm: 0 };
  const left = leftOf(sheet, OUTLINES).reduce(
    (sum, { outline, holes }) =>
      sum + signedArea(outline) - holes.reduce((s, h) => s + signedArea(h), 0),
    0,
  );
  const ear = signedArea(EAR) - Math.PI * 20 ** 2;
  // Every outline is grown by a tenth of a millimetre: perimeters of 2800, 931 and 126.
  const grownBy = 0.1 * (2800 + 300 + 80 + Math.hypot(180, 120) + 120 + 200 + 2 * Math.PI * 20);
  expect(left).toBeCloseTo(2500 * 1250 - 800 * 600 - ear - grownBy, -2);
});

test('the largest clean rectangle of a sheet is told to the hair', () => {
  const clean = cleanRectangle(sheetWith([lying('plate', 5, 5)]), OUTLINES);
  expect(clean?.minX).toBeCloseTo(809.1, 6);
  expect([clean?.minY, clean?.maxX, clean?.maxY]).toEqual([0, 2500, 1250]);
  const full = { outline: rectangle(0, 0, 800, 600) };
  expect(cleanRectangle(sheetWith([lying('plate', 0, 0)], full), OUTLINES)).toBeUndefined();
});
