import { describe, expect, test } from 'vitest';
import { rectangle } from '../../src/geometry/loop.ts';
import { isCutBack } from '../../src/panels/cut-back.ts';
import type { Shape } from '../../src/panels/shape.ts';
import type { Bend } from '../../src/panels/tree.ts';
import { planParts } from '../../src/use/plan/plan-parts.ts';
import panels from '../../templates/panels/index.ts';

/** Tabs of 6 along the top of a base, 4 apart. */
const comb = (tabs: number, thickness = 1) => ({
  base: `${tabs * 10 + 4} x 60`,
  thickness,
  flanges: Array.from(
    { length: tabs },
    (_, i) => `t${i + 1} on top 15 90 up from ${i * 10 + 2} to ${i * 10 + 8}`,
  ),
});

/** The same as panels and folds, with how often the folds were looked through. */
const folding = (tabs: number, thicknessMm: number) => {
  const shape = (id: string, width: number, height: number): Shape => ({
    id,
    outline: rectangle(0, 0, width, height),
    backwards: new Set(),
    isPlain: true,
  });
  const base = shape('base', tabs * 10 + 4, 60);
  const names = Array.from({ length: tabs }, (_, i) => `t${i + 1}`);
  const bends = names.map((child, i): Bend => ({
    id: child,
    angleDeg: 90,
    direction: 'up',
    insideRadiusMm: thicknessMm,
    parent: 'base',
    parentSide: { edge: 'top', stretch: [i * 10 + 2, i * 10 + 8] },
    child,
    childSide: { edge: 'bottom', stretch: [0, 6] },
  }));
  let looks = 0;
  return {
    base,
    looks: () => looks,
    folding: {
      panels: [base, ...names.map((name) => shape(name, 6, 15))].map((one) => ({ shape: one })),
      get bends() {
        looks += 1;
        return bends;
      },
      sheet: { thicknessMm, cornerGapMm: 0.5, measure: 'outside' as const },
    },
  };
};

describe('a comb of narrow tabs', () => {
  test('the metal round its corners is followed once, however thick', () => {
    const { base, looks, folding: thick } = folding(6, 60);
    for (const edge of ['left', 'right', 'bottom']) {
      const before = looks();
      expect(isCutBack(base, edge, thick)).toBe(false);
      // Each of 28 edges is come to once from each way at most, with three looks along each fold.
      expect(looks() - before, edge).toBeLessThan(2 * 28 * 20);
    }
  });

  test('up is one stroke', () => {
    const plan = planParts({ template: panels, inputs: { ...comb(10), leastSlot: 1.5 } });
    if (!plan.ok) throw new Error(JSON.stringify(plan.problems));
    expect(plan.result.parts[0]?.foldPlan).toMatchObject({
      feasible: true,
      steps: [{ bend: 'A + B + C + D + E + F + G + H + I + J' }],
    });
  });
});
