import { describe, expect, test } from 'vitest';
import { planFolds } from '../../src/plan/search/plan.ts';
import { planResult } from '../../src/plan/search/plan-result.ts';
import { caseOf, FOLDING, type FoldingCase, readOf, withSettings } from './cases.ts';
import type { PlanResult } from '../../src/contract/panel-plan.ts';

const planOf = (given: FoldingCase): PlanResult => {
  const { net, machine } = readOf(given);
  return planResult(planFolds(net, machine, { count: true, mostOrders: 3000 }), machine.id);
};

// The worked cases of folding: verdicts, numbers and reasons computed twice by their author with
// separate code.
describe.each(FOLDING.cases.map((c) => [c.id, c] as const))('worked case %s', (_, given) => {
  const { expected } = given;
  const result = planOf(given);

  test('verdict and number of orders', () => {
    expect(result.feasible).toBe(expected.feasible);
    expect(result.feasibleOrders).toBe(expected.feasible_orders ?? expected.feasible_stroke_orders);
    expect(result.orders).toHaveLength(Number(result.feasibleOrders));
    if (expected.total_orders !== undefined) expect(result.totalOrders).toBe(expected.total_orders);
    if (expected.max_bends_reachable !== undefined)
      expect(result.maxBendsReachable).toBe(expected.max_bends_reachable);
  });

  test('the orders themselves', () => {
    if (expected.orders !== undefined) expect(result.orders).toEqual(expected.orders);
    for (const [first, then] of expected.always_before ?? []) {
      for (const order of result.orders)
        expect(order.indexOf(first)).toBeLessThan(order.indexOf(then));
    }
  });

  test('the reasons found', () => {
    if (expected.blocked !== undefined) expect(result.blocked).toEqual(expected.blocked);
    for (const b of result.blocked)
      expect([b.parent_side_clamped, b.child_side_clamped]).not.toContain('');
  });

  test('fewest flips', () => {
    if (expected.min_flips === undefined) return;
    expect(result.foldPlan?.cheapest).toBe(true);
    // The first step may turn the sheet over without a stroke before it.
    expect(result.foldPlan?.steps.slice(1).filter((s) => s.flip)).toHaveLength(expected.min_flips);
  });
});

describe('what the cases say beside their verdicts', () => {
  test('FC03: the second fold with the flange clamped, since the web cannot be', () => {
    expect(planOf(caseOf('FC03')).foldPlan?.steps[1]?.clampedSide).toBe('child');
  });

  test.each([
    [true, 3],
    [false, 2],
  ])('FC08: with end overhang %s at most %i sides', (allowed, most) => {
    const result = planOf(withSettings(caseOf('FC08'), { end_overhang_allowed: allowed }));
    expect(result.feasible).toBe(false);
    expect(result.maxBendsReachable).toBe(most);
  });

  test('FC12: one bend at a time, no order, and two bends at most', () => {
    const given = caseOf('FC12');
    const result = planOf({ ...given, strokes_allowed: given.part.bends.map((b) => [b.id]) });
    expect(result.feasible).toBe(false);
    expect(result.maxBendsReachable).toBe(2);
  });

  test('FC12: that folds on one line go together is found without being told', () => {
    const { strokes_allowed: _, ...given } = caseOf('FC12');
    expect(planOf(given).orders).toEqual(given.expected.orders);
  });

  /** The fingers for one bend, the parent's side clamped, when some others are made. */
  const blockMm = (id: string, bend: string, made: readonly string[]): number => {
    const { net, machine } = readOf(caseOf(id));
    const { lattice } = planFolds(net, machine);
    const numberOf = (name: string): number => net.folds.findIndex((f) => f.id === name);
    const stroke = lattice.strokes.find(
      (s) => s.folds.length === 1 && s.folds[0] === numberOf(bend),
    );
    const bits = made.reduce((sum, name) => sum | (1 << numberOf(name)), 0);
    return (stroke?.tools(bits, 0, stroke.taken(bits, 0)) ?? [])
      .flatMap((b) => b.widthsMm)
      .reduce((a, b) => a + b, 0);
  };

  test('FC07: finger blocks of 145 and 195 mm between sides 150 and 200 mm apart', () => {
    expect(blockMm('FC07', 'W', ['S', 'N'])).toBe(145);
    expect(blockMm('FC07', 'S', ['W', 'E'])).toBe(195);
  });

  test('FC14: a block of 220 mm between the lips', () => {
    expect(blockMm('FC14', 'E', ['Sl', 'S', 'Nl', 'N', 'Wl', 'W', 'El'])).toBe(220);
  });
});

// Every case is stated to keep its answer under such changes of the machine.
describe('robust: the machine changed by as much as the cases allow', () => {
  const feasibleOn = (given: FoldingCase): unknown => planOf(given).feasibleOrders;
  const folders = FOLDING.cases.filter((c) => c.machine.profile === 'boxpan-1250x2.0');
  test.each(folders.map((c) => [c.id, c] as const))('%s', (_, given) => {
    const changes = [
      { nose_setback_mm: 1, overbend_deg: 3 },
      { nose_setback_mm: 3, overbend_deg: 7 },
      { finger_depth_mm: 48, box_depth_mm: 98, beam_depth_mm: 118 },
      { finger_depth_mm: 52, box_depth_mm: 102, beam_depth_mm: 122, nose_setback_mm: 3 },
    ];
    const counts = changes.map((settings) => feasibleOn(withSettings(given, settings)));
    expect(new Set(counts)).toEqual(
      new Set([given.expected.feasible_orders ?? given.expected.feasible_stroke_orders]),
    );
  });
});
