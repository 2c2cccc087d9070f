import { describe, expect, test } from 'vitest';
import { planParts } from '../../src/use/plan/plan-parts.ts';
import { planText } from '../../src/use/plan/plan-text.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily } from '../helpers/check-template.ts';

const SHEET = { material: 'dc01', thickness: 1.5 };

/** A strip with tabs of 30 along one edge, 10 apart, each with its own fold line. */
const tabbed = (tabs: number, way: string | ((tab: number) => string) = 'up') => {
  const at = Array.from({ length: tabs }, (_, i) => i * 40);
  const comb = at
    .toReversed()
    .flatMap((x) => [`${x + 30},60`, `${x},60`, ...(x > 0 ? [`${x},34`, `${x - 10},34`] : [])]);
  return {
    ...SHEET,
    outline: ['0,0', `${tabs * 40 - 10},0`, ...comb].join('; '),
    folds: at
      .map((x, i) => `${x},40 ${x + 30},40 90 ${typeof way === 'string' ? way : way(i + 1)} r1.5`)
      .join('; '),
  };
};

/** A strip folded across, a little up and a little down, so that no two folds are one stroke. */
const pleated = (folds: number) => ({
  ...SHEET,
  outline: `0,0; ${(folds + 1) * 60},0; ${(folds + 1) * 60},50; 0,50`,
  folds: Array.from(
    { length: folds },
    (_, i) =>
      `${(i + 1) * 60},0 ${(i + 1) * 60},50 ${20 + i / 2} ${i % 2 === 0 ? 'up' : 'down'} r1.5`,
  ).join('; '),
});

const planned = async (inputs: Record<string, unknown>) => {
  const template = await loadFamily('plate');
  const [plan, made] = [planParts({ template, inputs }), makeParts(template, inputs, {})];
  if (!plan.ok || !made.ok) throw new Error('the inputs are right');
  return {
    plan: plan.result.parts[0]?.foldPlan ?? null,
    made: made.parts[0]?.result,
    isFoldable: plan.isFoldable,
  };
};

describe('parts of many folds', () => {
  test.each(['up', 'down'])('24 tabs %s are one stroke', async (way) => {
    const { plan, made } = await planned(tabbed(24, way));
    const names = Array.from({ length: 24 }, (_, i) => `F${i + 1}`).join(' + ');
    expect(plan).toMatchObject({ feasible: true, steps: [{ bend: names, flip: way === 'down' }] });
    expect(made?.foldPlan).toEqual(plan);
  });

  // The leaf lifts whatever lies in front of it, so that a tab which goes down is in its way.
  test('a tab that goes the other way parts a row', async () => {
    const { plan } = await planned(tabbed(22, (tab) => (tab === 12 ? 'down' : 'up')));
    const row = (from: number, to: number) =>
      Array.from({ length: to - from + 1 }, (_, i) => `F${from + i}`).join(' + ');
    // Folds of a plate are named the way round its outline, so that the twelfth tab is F11.
    expect(plan?.steps.map(({ bend }) => bend).toSorted()).toEqual(
      [row(1, 10), 'F11', row(12, 22)].toSorted(),
    );
  });

  // The same strip with so few tabs that each is a fold of its own to the planner.
  test('a row of tabs taken as one is planned as it is tab by tab', async () => {
    const [few, many] = [(await planned(tabbed(20))).plan, (await planned(tabbed(21))).plan];
    // What depends on the length of the strip is left out: fingers, weights, the place of the mark.
    const alike = (plan: typeof few) => {
      const step = plan?.steps[0];
      if (step === undefined) throw new Error('it is planned');
      const { clampedSide, way, flip, stopAtDeg, byHandDeg, card } = step;
      const checks = card.checks.map(({ kind, value, plusMinus }) => [kind, value, plusMinus]);
      return { clampedSide, way, flip, stopAtDeg, byHandDeg, faceUp: card.faceUp, checks };
    };
    expect(alike(many)).toEqual(alike(few));
  });

  test.each([22, 32])(
    '%d folds of their own are planned or said not to be decided, by both',
    async (folds) => {
      const { plan, made, isFoldable } = await planned(pleated(folds));
      expect(plan).not.toBeNull();
      if (plan?.feasible === true) {
        expect(plan.steps).toHaveLength(folds);
        return;
      }
      expect(plan?.feasible).toBeNull();
      expect(isFoldable).toBe(false);
      expect(planText('strip', plan)).toContain('not decided');
      expect(made?.foldPlan?.feasible).toBeNull();
      expect(made?.findings.map((f) => f.rule)).toContain('fold-order-open');
    },
  );
});
