import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { filledOptions } from '../../src/use/make/make-options.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { redesignsOf } from '../../src/use/make/redesigns.ts';
import { FAMILIES } from '../../templates/index.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { oneOfEach } from '../helpers/extent.ts';

/** Why an example is not folded here, as a folder hand is told it, and how a person would make it. */
interface Refused {
  readonly reason: RegExp;
  readonly wayOut: Readonly<Record<string, string>>;
}

/**
 * Examples that a folder of 1250 mm for 2 mm sheet does not make. What is too thick for it, or too
 * long for its fingers in stainless, is slit and folded by hand, or pressed. The riser of a heel rest
 * with a double stop comes back under the tread, where it has to pass the cheek, which hangs down into
 * the bed: the riser is welded on along the stop. An end of a tank whose flanges are too long has none:
 * it is welded flush.
 */
const REFUSED: Readonly<Record<string, Refused>> = {
  'bracket-zed 3': {
    reason: /5 mm S355JR is more than the machine takes/,
    wayOut: { slitAt: 'A, B' },
  },
  'heel-rest 3': { reason: /left cheek would lie inside the bed/, wayOut: { weldAt: 'C' } },
  'strut-brace 2': {
    reason: /6 mm S275JR is more than the machine takes/,
    wayOut: { slitAt: 'R' },
  },
  'tank 2': { reason: /bends 1\.5 mm .* over 403 mm at most/, wayOut: { ends: 'flush' } },
  // A strip is bent where the parts are that it stands for.
  'test-strip 2': { reason: /5 mm S235JR is more than the machine takes/, wayOut: { slitAt: 'A' } },
};

/** Those that are folded only because the shop sets its machine up otherwise. */
const WITHOUT_BAR: readonly string[] = ['bracket-zed 2'];

/** Those whose ways out take long to be looked for; that they are one is seen here all the same. */
const LONG: readonly string[] = ['heel-rest 3', 'tank 2'];

describe('every example of every family in the assumed shop, a folder and a plasma table', () => {
  test.each([...FAMILIES.keys()])(
    '%s folds by machine or hand, or says why not',
    async (family) => {
      const template = await loadFamily(family);
      for (const [i, { inputs }] of template.examples.entries()) {
        const made = makeParts(template, inputs, { shop: DEFAULT_SHOP });
        if (!made.ok) throw new Error(JSON.stringify(made.problems));
        const plans = made.parts.flatMap(({ result: { foldPlan } }) => foldPlan ?? []);
        const refused = plans.filter(({ feasible }) => feasible !== true);
        const name = `${family} ${i + 1}`;
        expect(refused.length > 0, name).toBe(name in REFUSED);
        expect(
          plans.some(({ barTakenOff }) => barTakenOff === true),
          name,
        ).toBe(WITHOUT_BAR.includes(name));
        // What a family shows first can be made here.
        if (i === 0) expect(refused, name).toEqual([]);
        for (const { feasible, blockedBy } of refused) {
          expect(feasible, name).toBe(false);
          expect(blockedBy[0]?.reason, name).toMatch((REFUSED[name] as Refused).reason);
        }
      }
    },
  );

  test.each(oneOfEach(Object.entries(REFUSED), () => 'refused'))(
    '%s has a way out that is made here, with a plan and a proof',
    async (name, { wayOut }) => {
      const [family = '', place] = name.split(' ');
      const template = await loadFamily(family);
      const inputs = { ...template.examples[Number(place) - 1]?.inputs };
      if (!LONG.includes(name)) {
        const told = redesignsOf(template, inputs, filledOptions({ shop: DEFAULT_SHOP }));
        expect(told.map((r) => r.inputs)).toContainEqual(wayOut);
      }
      const made = makeParts(template, { ...inputs, ...wayOut }, { foldAt: 'here' });
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      for (const { stopped, plan, part, result } of made.parts) {
        expect([result.name, stopped]).toEqual([result.name, false]);
        expect(result.proof?.worstMm).toBeLessThan(0.01);
        if ((part?.folds.length ?? 0) > 0) expect(plan?.plan.feasible).toBe(true);
      }
    },
  );
});
