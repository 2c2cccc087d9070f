import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily } from '../helpers/check-template.ts';

/** A drum of S235JR of 3 mm, 300 inside and 200 high, as a shop with these rolls is told of it. */
const toldWith = async (rolls: Record<string, number> | undefined): Promise<string | undefined> => {
  const inputs = { diameter: 300, length: 200, thickness: 3, material: 's235' };
  const own = rolls as { width: number; leastDiameter: number; capacity: number } | undefined;
  const shop = {
    ...DEFAULT_SHOP,
    rolls: own === undefined ? [] : [{ name: 'slip rolls', ...own }],
  };
  const made = makeParts(await loadFamily('shell'), inputs, { shop });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.parts[0]?.result.findings.find((f) => f.rule === 'rolls-do-not-take')?.message;
};

describe('rolls-do-not-take', () => {
  // By hand, from the common formula of springback R0/R = 1 - 3 x + 4 x^3 with x = Y R / (E t): x is
  // 235 x 150 / (210 000 x 3) = 0.056, so the rolls are set for 0.833 of the radius, 250 across.
  test.each([
    [
      { width: 199, leastDiameter: 100, capacity: 4 },
      /^Slip rolls are 199 mm wide, and this is 200/,
    ],
    [{ width: 500, leastDiameter: 252, capacity: 4 }, /no tighter than 252 mm across.* 2(?:49|50)/],
    [{ width: 500, leastDiameter: 100, capacity: 2 }, /^Slip rolls take 1\.\d+ mm of S235JR/],
  ])('rolls of %j', async (rolls, words) => {
    expect(await toldWith(rolls)).toMatch(words);
  });

  test('is not told of rolls that take the wall, nor where the shop has none', async () => {
    expect(await toldWith({ width: 200, leastDiameter: 248, capacity: 4 })).toBeUndefined();
    expect(await toldWith(undefined)).toBeUndefined();
  });
});
