import fc from 'fast-check';
import { expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { bestBlock } from '../../src/plan/machines/finger-blocks.ts';
import { fingerUnits } from '../../src/plan/machines/finger-units.ts';
import { hold, widestBlock } from '../../src/plan/machines/holding.ts';
import { fixedRuns } from '../helpers/extent.ts';
import { FOLDING } from './cases.ts';

const WIDTHS = BOX_PAN.clamp.kind === 'fingers' ? BOX_PAN.clamp.widthsMm.value : [];

// Check K3 of the folding figures: the largest finger block for a clear width, 1 mm clear on each
// side.
test.each(Object.entries(FOLDING.calc_checks.find((c) => c.id === 'K3')?.expected ?? {}))(
  'clear width %s mm',
  (clear, block) => {
    expect(widestBlock(WIDTHS, Number(clear), 1) ?? 'none').toBe(block);
  },
);

const fingers = {
  kind: 'fingers',
  widthsMm: [25, 30, 40],
  sideClearMm: 1,
  mostUncoveredMm: 30,
} as const;
const widths = (
  lines: readonly (readonly [number, number])[],
  taken: readonly (readonly [number, number])[],
) =>
  hold(
    fingers,
    lines.map(([from, to]) => ({ from, to })),
    taken.map(([from, to]) => ({ from, to })),
  )?.map((b) => b.widthsMm);

// Worked by hand: 25 + 30 + 40 = 95 is the whole set.
test.each([
  ['no wider than is needed', [[0, 60]], [], [[40, 25]]],
  ['up to 30 mm may be left without', [[0, 125]], [], [[40, 30, 25]]],
  ['but no more', [[0, 126]], [], undefined],
  ['two rooms share one set, so that most is held', [[0, 100]], [[44, 56]], [[30, 25], [40]]],
  [
    'something in the way at both ends',
    [[0, 72]],
    [
      [0, 0],
      [72, 72],
    ],
    [[40, 30]],
  ],
] as const)('%s', (_, lines, taken, expected) => {
  expect(widths(lines, taken)).toEqual(expected);
});

test('of more fingers than can be tried one by one, narrow ones stay single; none is lost or made up', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 10, max: 300 }), { minLength: 1, maxLength: 60 }),
      fc.integer({ min: 30, max: 3000 }),
      (widthsMm, length) => {
        const units = fingerUnits(widthsMm);
        expect(units.length).toBeLessThanOrEqual(18);
        const sorted = (list: readonly number[]) => list.toSorted((a, b) => a - b);
        expect(sorted(units.flat())).toEqual(sorted(widthsMm));
        if (widthsMm.length <= 18) expect(units.every((unit) => unit.length === 1)).toBe(true);
        const used = hold({ ...fingers, widthsMm }, [{ from: 0, to: length }], [])?.[0]?.widthsMm;
        // All of them reach as far as they do.
        const all = widthsMm.reduce((sum, width) => sum + width, 0);
        expect(used !== undefined).toBe(all >= length - 30);
        for (const width of new Set(used))
          expect(used?.filter((w) => w === width).length).toBeLessThanOrEqual(
            widthsMm.filter((w) => w === width).length,
          );
      },
    ),
    { numRuns: fixedRuns(60) },
  );
});

/** All sets of free fingers, gone through one by one: what holds all first, then what is narrowest. */
const byTrial = (
  widthsMm: readonly number[],
  used: number,
  mostMm: number,
  onMm: number,
): number | undefined => {
  const fingersIn = (block: number): number[] => widthsMm.filter((_, k) => (block >> k) % 2 === 1);
  const sum = (block: number): number => fingersIn(block).reduce((all, mm) => all + mm, 0);
  const isShort = (block: number): boolean => sum(block) < onMm;
  return Array.from({ length: 2 ** widthsMm.length }, (_, block) => block)
    .filter((block) => (block & used) === 0 && sum(block) <= mostMm)
    .toSorted(
      (a, b) =>
        Number(isShort(a)) - Number(isShort(b)) ||
        (isShort(a) ? sum(b) - sum(a) : sum(a) - sum(b)) ||
        fingersIn(a).length - fingersIn(b).length ||
        a - b,
    )[0];
};

test('the block for a room is the best of all that are free', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 4, max: 60 }), { minLength: 1, maxLength: 7 }),
      fc.nat(127),
      fc.integer({ min: -5, max: 250 }),
      fc.integer({ min: 0, max: 250 }),
      (widthsMm, taken, mostMm, onMm) => {
        const used = taken % 2 ** widthsMm.length;
        const best = bestBlock(widthsMm, used, { room: { from: 0, to: mostMm }, on: onMm });
        expect(best?.block).toBe(byTrial(widthsMm, used, mostMm, onMm));
      },
    ),
    { numRuns: fixedRuns(300) },
  );
});

test('a set of thirty fingers out of the drawer, of equal ones many, is chosen from as a person would', () => {
  const widthsMm = [...Array<number>(12).fill(25), ...Array<number>(12).fill(50), 100, 100, 150];
  expect(hold({ ...fingers, widthsMm }, [{ from: 0, to: 175 }], [])?.[0]?.widthsMm).toEqual([
    150, 25,
  ]);
});

test('a beam of one piece lets one end stand outside, never both', () => {
  const line = [{ from: 0, to: 100 }];
  const at = (z: number) => ({ from: z, to: z });
  const beam = (endOverhang: boolean) => ({ kind: 'one piece', endOverhang }) as const;
  expect(hold(beam(true), line, [at(-2)])).toBeDefined();
  expect(hold(beam(true), line, [at(-2), at(102)])).toBeUndefined();
  expect(hold(beam(false), line, [at(-2)])).toBeUndefined();
  expect(hold(beam(true), line, [at(50)])).toBeUndefined();
});
