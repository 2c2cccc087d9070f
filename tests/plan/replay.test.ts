import { describe, expect, test } from 'vitest';
import { planFolds } from '../../src/plan/search/plan.ts';
import { planResult } from '../../src/plan/search/plan-result.ts';
import { caseOf, FOLDING, type FoldingCase, readOf } from './cases.ts';
import { replay } from './replay.ts';
import type { PlanResult } from '../../src/contract/panel-plan.ts';

const planOf = (given: FoldingCase): NonNullable<PlanResult['foldPlan']> | null => {
  const { net, machine } = readOf(given);
  return planResult(planFolds(net, machine), machine.id).foldPlan;
};

describe('every plan replayed at 1 degree by code of its own', () => {
  test.each(FOLDING.cases.filter((c) => c.expected.feasible).map((c) => [c.id, c] as const))(
    '%s',
    (_, given) => {
      const plan = planOf(given);
      expect(plan === null ? 'no plan' : replay(given, plan)).toEqual([]);
    },
  );
});

describe('the replay finds what is wrong', () => {
  test.each([
    ['FC04', ['f1', 'f2', 'l1', 'l2'], /beam/],
    ['FC05a', ['b1', 'b2'], /bed|leaf/],
    ['FC06', ['b1', 'b4', 'b2', 'b3'], /bed/],
    ['FC09', ['S', 'N', 'W', 'E'], /beam/],
    ['FC11', ['B', 'A'], /leaf/],
  ])('%s in the order %j', (id, order, body) => {
    const given = caseOf(id);
    const plan = {
      machine: '',
      feasible: true,
      cheapest: true,
      flips: 0,
      steps: order.map((bend) => step(bend)),
    } as const;
    expect(replay(given, plan).join('\n')).toMatch(body);
  });

  const step = (bend: string) =>
    ({
      bend,
      clampedPanel: '',
      clampedSide: 'parent',
      flip: false,
      turnDeg: 0,
      stopAtDeg: 95,
      stopMm: 0,
      fingersMm: [[250, 250, 100]],
    }) as const;
});
