import { describe, expect, test } from 'vitest';
import { FOLDERS } from '../../src/data/machines.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import type { FoldPlan } from '../../src/contract/fold-plan.ts';
import type { Machine } from '../../src/model/machine.ts';
import { planFindings, planOnShop } from '../../src/plan/of-part/shop-plan.ts';
import { make } from '../helpers/check-template.ts';
import { EVERYDAY, type Everyday } from './everyday.ts';

const planOf = async (
  { family, inputs }: Pick<Everyday, 'family' | 'inputs'>,
  byMachineOnly: boolean,
  machines: readonly Machine[] = FOLDERS,
): Promise<FoldPlan> => {
  const [made] = await make(family, inputs);
  if (made?.part === undefined || made.flat === undefined)
    throw new Error(`${family} is not made: ${JSON.stringify(made?.result.findings)}`);
  const { part, flat, material } = made;
  const found = planOnShop({ part, flat, material, bends: [] }, machines, undefined, {
    byMachineOnly,
  });
  if (found === undefined) throw new Error(`${family} has no folds`);
  return found.plan;
};

const toldOf = ({ steps, blockedBy }: FoldPlan): string =>
  [...steps.map((s) => `${s.way}: ${s.note ?? ''}`), ...blockedBy.map((b) => b.reason)].join('\n');

describe('everyday parts have the verdict that the trade gives', () => {
  test('there are at least thirty', () => {
    expect(EVERYDAY.length).toBeGreaterThanOrEqual(30);
  });

  test.each(EVERYDAY)('$what: $verdict', async (part) => {
    const [alone, helped] = [await planOf(part, true), await planOf(part, false)];
    const isAsItStands = alone.feasible === true && alone.barTakenOff === undefined;
    expect(isAsItStands).toBe(part.verdict === 'by machine');
    expect(helped.feasible).toBe(part.verdict !== 'refused');
    expect(helped.barTakenOff === true).toBe(part.verdict === 'with the bar off');
    // Where the machine does it alone, hands change nothing.
    if (part.verdict === 'by machine') expect(helped).toEqual(alone);
    if (part.by !== undefined) expect(toldOf(helped)).toMatch(part.by);
    expect(part.source).not.toBe('');
  });
});

describe('what a plan says of the hands that help', () => {
  const saddle = {
    family: 'bracket-hat',
    inputs: {
      crown: 26,
      height: 24,
      footA: 24,
      footB: 24,
      width: 40,
      thickness: 2,
      material: 'dc01',
    },
  };

  test('which strokes are by hand, and a finding that names them', async () => {
    const plan = await planOf(saddle, false);
    const byHand = plan.steps.filter((s) => s.way === 'over a block');
    expect(byHand.length).toBeGreaterThan(0);
    for (const step of byHand)
      expect(step).toMatchObject({ byHandDeg: 90, stopAtDeg: 90, nose: null, fingersMm: [40] });
    for (const step of plan.steps.filter((s) => s.way === 'machine'))
      expect(step).toMatchObject({ byHandDeg: 0 });
    expect(planFindings(plan, 'auto')).toMatchObject([{ rule: 'fold-by-hand', severity: 'note' }]);
  });

  // The moment of a fold grows with the length, the strength and the square of the thickness: 60 N m
  // are 450 x 2 x 2 / 4 x 133 mm of 2 mm mild steel.
  test.each([
    [100, 2, true],
    [160, 2, false],
    [160, 1.5, true],
  ])('a fold of %d mm in %d mm sheet is tapped over: %s', async (width, thickness, can) => {
    const inputs = { crown: 26, height: 24, footA: 24, footB: 24, width, thickness };
    const plan = await planOf(
      { family: 'bracket-hat', inputs: { ...inputs, radius: 1.5, material: 'dc01' } },
      false,
    );
    expect(plan.feasible).toBe(can);
  });

  test('a hem stays to be pressed flat, by what the machine leaves of it', async () => {
    const plan = await planOf(
      {
        family: 'panels',
        inputs: { base: '300 x 200', flanges: ['a on bottom 10 180 up radius 0.5'], thickness: 1 },
      },
      true,
    );
    expect(plan.steps).toMatchObject([{ way: 'machine', byHandDeg: 60, stopAtDeg: 120 }]);
  });

  // Half of a duct with lips, one leg up and lips down on both: between the lips the punch and the
  // die are as long as the fold between them.
  test('a press brake has its die no longer than the fold, with flanges beside it', async () => {
    const half = {
      family: 'panels',
      inputs: {
        base: '120 x 90',
        flanges: ['leg on top 80 90 up', 'lip on left 25 90 down', 'rip on right 25 90 down'],
        thickness: 1,
      },
    };
    const [alone, helped] = [
      await planOf(half, true, [PRESS_BRAKE]),
      await planOf(half, false, [PRESS_BRAKE]),
    ];
    expect(helped.feasible).toBe(true);
    expect(alone.feasible).toBe(false);
    expect(toldOf(helped)).toMatch(/short die: .*lip, rip stays beside them/);
  });
});
