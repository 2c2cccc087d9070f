import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import type { FoldPlan } from '../../src/contract/fold-plan.ts';
import { otherHandOf } from '../../src/plan/of-part/other-plans.ts';
import type { PartToFold } from '../../src/plan/of-part/plan-steps.ts';
import { planOnShop } from '../../src/plan/of-part/shop-plan.ts';
import type { LaidFlat } from '../../src/use/made-part.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { FAMILIES } from '../../templates/index.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { IS_FULL } from '../helpers/extent.ts';

/**
 * What a plan takes, whichever of several orders that cost the same it has: its machine, its ways, its
 * stops and its angles by hand, how often it is turned over, how often fingers are set anew.
 */
const costOf = ({ machine, feasible, steps }: FoldPlan): unknown => {
  const setUps = steps.map((s) => s.fingersMm.toSorted((a, b) => a - b).join());
  return {
    machine,
    feasible,
    ways: steps.map((s) => `${s.way} ${s.stopAtDeg.toFixed(6)} ${s.byHandDeg}`).toSorted(),
    flips: steps.slice(1).filter((s) => s.flip).length,
    beginsOver: steps[0]?.flip,
    turns: steps.filter((s) => s.turnDeg > 0).length,
    setUps: setUps.filter((s, i) => s !== setUps[i - 1]).length,
    inTwo: steps.filter((s) => s.inTwo !== undefined).length,
    bar: steps.map((s) => s.note?.startsWith('take the bar off')),
  };
};

const SOME = ['bracket-zed', 'bracket-gusset', 'plate'];

// Nothing of a mirrored part costs more or less, so a search that begins anew must find the same.
describe('the plan of the other hand takes what a search of the mirrored part finds', () => {
  test.each(IS_FULL ? [...FAMILIES.keys()] : SOME)('%s', async (family) => {
    const { examples, ...template } = await loadFamily(family);
    // The last is the odd one; of the zeds the one that takes the bar off besides.
    for (const { inputs } of examples.slice(family === 'bracket-zed' ? -2 : -1)) {
      const made = makeParts(
        { ...template, examples },
        { ...inputs, hand: 'both' },
        { foldAt: 'service' },
      );
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      const toFold = ({ part, flat, material }: LaidFlat): PartToFold => ({
        part,
        flat,
        material,
        bends: [],
      });
      const laid = made.parts.filter((p) => p.flat !== undefined);
      for (const left of laid.filter((p) => p.result.hand === 'left')) {
        const { name } = left.result;
        const right = laid.find((p) => p.result.name === name.replace(/-L$/, '-R'));
        const one = planOnShop(toFold(left), DEFAULT_SHOP.machines);
        if (one === undefined) continue;
        if (right === undefined || right === left) throw new Error(`no other hand of ${name}`);
        const other = toFold(right);
        const found = otherHandOf(other, one);
        expect(found, name).toBeDefined();
        const fresh = planOnShop(other, DEFAULT_SHOP.machines);
        expect(found && costOf(found.plan), name).toEqual(fresh && costOf(fresh.plan));
      }
    }
  });
});
