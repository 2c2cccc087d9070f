import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { FAMILIES } from '../../templates/index.ts';
import { loadFamily } from '../helpers/check-template.ts';

/**
 * Examples that a folder of 1250 mm for 2 mm sheet does not make, and what a folder hand is told of
 * the first fold that stops them: plate too thick for it, a fold too long for its fingers in
 * stainless, a flange that comes down into the bed.
 */
const REFUSED: Readonly<Record<string, RegExp>> = {
  'bracket-zed 2': /inside the bed/,
  'bracket-zed 3': /5 mm S355JR is more than the machine takes/,
  'heel-rest 3': /inside the bed/,
  'strut-brace 2': /6 mm S275JR is more than the machine takes/,
  'tank 2': /bends 1\.5 mm .* over 403 mm at most/,
  'test-strip 2': /5 mm S235JR is more than the machine takes/,
};

describe('every example of every family in the assumed shop, a folder and a plasma table', () => {
  test.each([...FAMILIES.keys()])(
    '%s folds by machine or hand, or says why not',
    async (family) => {
      const template = await loadFamily(family);
      for (const [i, { inputs }] of template.examples.entries()) {
        const made = makeParts(template, inputs, { shop: DEFAULT_SHOP });
        if (!made.ok) throw new Error(JSON.stringify(made.problems));
        const refused = made.parts.flatMap(({ result: { foldPlan } }) =>
          foldPlan === null || foldPlan.feasible === true ? [] : [foldPlan],
        );
        const name = `${family} ${i + 1}`;
        expect(refused.length > 0, name).toBe(name in REFUSED);
        for (const { feasible, blockedBy } of refused) {
          expect(feasible, name).toBe(false);
          expect(blockedBy[0]?.reason, name).toMatch(REFUSED[name] as RegExp);
        }
      }
    },
  );
});
