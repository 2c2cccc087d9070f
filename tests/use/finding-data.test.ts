import { expect, test } from 'vitest';
import type { MakeOptions } from '../../src/use/make/make-options.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily } from '../helpers/check-template.ts';

/** Findings as programs read them. Those on holes are in tests/checks/hole-data.test.ts. */

const found = async (
  family: string,
  inputs: Record<string, unknown>,
  rule: string,
  options: MakeOptions = {},
) => {
  const made = makeParts(await loadFamily(family), inputs, options);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.parts[0]?.result.findings.find((f) => f.rule === rule);
};

const ANGLE = { legA: 60, legB: 40, width: 80, thickness: 3, radius: 3 };

// The bend takes r + t = 6 of the leg, and as much flat as the sheet is thick is left beside it.
test('a limit of a family: what was given for the input, and what it is to be', async () => {
  expect(await found('bracket-angle', { ...ANGLE, legA: 5 }, 'leg-too-short')).toMatchObject({
    inputs: ['legA'],
    measured: { value: 5, unit: 'mm' },
    limit: { atLeast: 9, unit: 'mm' },
  });
});

test('the same of what was typed in inches, in mm', async () => {
  expect(
    await found('bracket-angle', { ...ANGLE, legA: '3/16 in' }, 'leg-too-short'),
  ).toMatchObject({ measured: { value: 4.7625, unit: 'mm' }, limit: { atLeast: 9, unit: 'mm' } });
});

// V of 8 t = 24 for 3 mm, its shoulders 12 / cos 45 degrees from the middle.
test('a leg too short for a brake: its panel, where it is bent, how far it reaches', async () => {
  const warning = await found('bracket-angle', { ...ANGLE, legA: 12 }, 'leg-short-for-brake', {
    foldAt: 'service',
  });
  expect(warning).toMatchObject({ panel: 'leg A', limit: { unit: 'mm' } });
  expect(warning?.limit?.atLeast).toBeCloseTo(12 / Math.cos(Math.PI / 4), 6);
  expect(warning?.at?.[0]).toBeCloseTo(40, 6);
  expect(warning?.at?.[1]).toBeCloseTo(warning?.measured?.value ?? NaN, 6);
});
