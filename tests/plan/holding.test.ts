import { expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { hold, widestBlock } from '../../src/plan/machines/holding.ts';
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

test('a beam of one piece lets one end stand outside, never both', () => {
  const line = [{ from: 0, to: 100 }];
  const at = (z: number) => ({ from: z, to: z });
  const beam = (endOverhang: boolean) => ({ kind: 'one piece', endOverhang }) as const;
  expect(hold(beam(true), line, [at(-2)])).toBeDefined();
  expect(hold(beam(true), line, [at(-2), at(102)])).toBeUndefined();
  expect(hold(beam(false), line, [at(-2)])).toBeUndefined();
  expect(hold(beam(true), line, [at(50)])).toBeUndefined();
});
