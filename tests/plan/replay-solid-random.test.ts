import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { loadFamily } from '../helpers/check-template.ts';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';
import { planned, isFeasible, faults, BOTH } from './replay-solid-planned.ts';

const mm = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: 2 * min, max: 2 * max }).map((n) => n / 2);

const SHEET = {
  material: fc.constantFrom('dc01', '5754-h22', '1.4301'),
  thickness: fc.constantFrom(0.8, 1, 1.5, 2, 3),
  radius: fc.constantFrom(1, 2, 3, 8),
  measure: fc.constantFrom('outside', 'inside'),
  rule: fc.constantFrom('din6935', 'k:0.42', 'faa'),
  hand: fc.constantFrom('left', 'right', 'both'),
};
const bendAngle = fc.oneof(fc.constant(90), fc.integer({ min: 5, max: 130 }));
const lip = fc.constantFrom('none', 'none', 'in', 'out');

/**
 * Inputs of families whose parts have few folds, of sizes that machines of a small shop mostly
 * fold.
 */
const RANDOM: Readonly<Record<string, Readonly<Record<string, fc.Arbitrary<unknown>>>>> = {
  'bracket-angle': { legA: mm(25, 120), legB: mm(12, 80), width: mm(20, 120), bendAngle },
  'bracket-channel': {
    web: mm(40, 120),
    flangeA: mm(12, 80),
    flangeB: mm(12, 50),
    width: mm(20, 120),
    bendAngle,
  },
  'bracket-zed': {
    flangeA: mm(12, 80),
    offset: mm(20, 80),
    flangeB: mm(12, 80),
    width: mm(20, 120),
    bendAngle,
  },
  'bracket-hat': {
    crown: mm(50, 120),
    height: mm(20, 50),
    footA: mm(12, 60),
    footB: mm(12, 60),
    width: mm(20, 120),
    bendAngle,
  },
  'bracket-gusset': {
    base: mm(50, 120),
    upright: mm(50, 120),
    width: mm(40, 120),
    gussetDepth: mm(10, 40),
    gussetHeight: mm(10, 40),
    gussetSide: fc.constantFrom('left', 'right', 'both'),
  },
  tray: {
    length: mm(80, 200),
    depth: mm(80, 200),
    height: mm(15, 50),
    corner: fc.constantFrom('open', 'butt'),
    lipLeft: lip,
    lipRight: lip,
    lipDepth: mm(12, 20),
  },
  plate: {
    outline: fc.constantFrom(
      '0,0; 120,0; 120,80 r6; 0,80 r6',
      '0,0; 90,10; 140,0; 130,70; 60,100 arc; 0,70',
    ),
    folds: fc.constantFrom(
      '-10,35 150,40 90 up',
      '60,-10 50,120 30 down r4',
      '-10,25 150,25 90 up; -10,50 150,50 90 up',
      '-10,20 150,20 90 up; -10,45 150,50 60 down',
    ),
  },
};

describe('the plans of random parts', () => {
  test.each(Object.entries(RANDOM))('%s', async (family, sizes) => {
    const template = await loadFamily(family);
    expect(template.family).toBe(family);
    let count = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.record({ ...SHEET, ...sizes }),
        fc.constantFrom(...BOTH),
        async (inputs, machine) => {
          for (const found of (await planned(family, inputs, machine)).filter(isFeasible)) {
            count += 1;
            expect(faults(found)).toEqual([]);
          }
        },
      ),
      // Each takes as long as a hundred of other random tests.
      { numRuns: Math.ceil(fuzzRuns(600) / 100) },
    );
    expect(count).toBeGreaterThan(shareOf(0));
  });
});
