import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import type { Part } from '../../src/model/part.ts';
import { netFor, planPart } from '../../src/plan/of-part/part-plan.ts';
import type { PartToFold } from '../../src/plan/of-part/plan-steps.ts';
import { allowance, canFold } from '../../src/plan/search/suggest.ts';
import { oneOfEach } from '../helpers/extent.ts';
import { fold, panel, part } from '../helpers/parts.ts';
import { material } from '../helpers/plate.ts';

const toFold = (made: Part): PartToFold => ({
  part: made,
  flat: flatten(made, { id: 'k', k: 0.42 }),
  material: material('dc01'),
  bends: [],
});

/** A strip of 2 mm with tabs of so many mm along its upper edge, 20 apart. */
const tabbed = (tabs: number, wide: number, thicknessMm = 2): Part =>
  part(
    [
      panel('strip', rectangle(0, 0, tabs * (wide + 20) + 20, 90)),
      ...Array.from({ length: tabs }, (_, i) => panel(`tab ${i}`, rectangle(0, 0, wide, 30))),
    ],
    Array.from({ length: tabs }, (_, i) => {
      // The upper edge runs from right to left.
      const from = 20 + i * (wide + 20);
      const at = { panel: 'strip', edge: 2, from, to: from + wide };
      return fold(`T${i}`, at, { panel: `tab ${i}`, edge: 0 }, 90, 'up', 2);
    }),
    { thicknessMm },
  );

const lengthOf = (of: PartToFold, id: string): number => {
  const [p, q] = of.flat.bends.find((b) => b.id === id)?.centreLine ?? [
    [0, 0],
    [0, 0],
  ];
  return Math.hypot(q[0] - p[0], q[1] - p[1]);
};

// The fingers of a folder for 2 mm take two gauges less, 0.71 of its rating (rule R11 of
// tests/published/folding.json), which goes with the square of the thickness: 1250 x 0.71^2 = 630 mm
// of 2 mm sheet. Three tabs of 250 are one stroke too long, and two of them are not.
describe('folds that are made at one stroke count together', () => {
  const MOST_MM = 1250 * 0.71 ** 2;

  test('two of three tabs are a stroke, and all three are none', () => {
    const three = toFold(tabbed(3, 250));
    const { answer, plan } = planPart(three, BOX_PAN);
    const { net, strokes } = answer.lattice;
    expect(net.mostTogetherMm).toBeCloseTo(MOST_MM, -1);
    const sizes = strokes.map(({ folds }) => folds.length);
    expect([sizes.includes(1), sizes.includes(2), sizes.includes(3)]).toEqual([true, true, false]);
    for (const { folds } of strokes) {
      const sum = folds.reduce((mm, f) => mm + lengthOf(three, net.folds[f]?.id ?? ''), 0);
      expect(sum).toBeLessThan(MOST_MM);
    }
    // A leaf bends all that lies in front of it, so that fewer than all are none either.
    expect(plan.feasible).toBe(false);
    expect(plan.blockedBy[0]?.reason).toMatch(/^tab \d lies in front of the bed edge/);
    const short = planPart(toFold(tabbed(3, 180)), BOX_PAN);
    expect(short.plan.steps.map((s) => s.bend.split(' + ').length)).toEqual([3]);
  });

  test('a row that is taken as one is refused for its length together, and says so', () => {
    const row = planPart(toFold(tabbed(21, 35)), BOX_PAN);
    expect(row.plan.feasible).toBe(false);
    expect(row.plan.blockedBy[0]?.reason).toMatch(
      /^its 21 folds, made at one stroke, are 735 mm long together; the machine bends \d+ mm of that sheet at most$/,
    );
    expect(planPart(toFold(tabbed(21, 25)), BOX_PAN).plan.feasible).toBe(true);
    // Thinner sheet goes by the thickness too: 1250 mm of 1.42 mm.
    expect(planPart(toFold(tabbed(21, 35, 1.2)), BOX_PAN).plan.feasible).toBe(true);
  });
});

/** A strip folded across, so deep at its end that its last two folds block each other. */
const pleated = (folds: number): Part => {
  const lengths = Array.from({ length: folds + 1 }, (_, i) => (i < folds - 1 ? 60 : 150));
  return part(
    lengths.map((mm, i) => panel(`p${i}`, rectangle(0, 0, 50, mm))),
    lengths
      .slice(1)
      .map((_, i) =>
        fold(
          `F${i}`,
          { panel: `p${i}`, edge: 2 },
          { panel: `p${i + 1}`, edge: 0 },
          i < folds - 3 ? 20 + i / 2 : 90,
          i % 2 === 0 || i >= folds - 3 ? 'up' : 'down',
          1.5,
        ),
      ),
    { thicknessMm: 1.5 },
  );
};

describe('what is tried for a part of many folds', () => {
  const sizes = oneOfEach([20, 25, 30], () => 'size');
  test.each(sizes)('of %d is within what is allowed, and nothing is tried after', (folds) => {
    const many = toFold(pleated(folds));
    // What is left after most of it was tried.
    const allowed = { left: allowance().left / 6 };
    let tries = 0;
    for (; allowed.left > 0; tries++) {
      const before = allowed.left;
      const machine = tries % 2 === 0 ? BOX_PAN : PRESS_BRAKE;
      canFold(netFor(many, machine).net, machine, allowed);
      // Half a million for the search, 2000 for each fold's strokes, and what one question costs.
      expect(before - allowed.left).toBeGreaterThanOrEqual(2000 * folds);
      expect(before - allowed.left).toBeLessThanOrEqual(520_000 + 2000 * folds);
    }
    expect(tries).toBeGreaterThan(1);
    const spent = allowed.left;
    expect(canFold(netFor(toFold(tabbed(2, 50)), BOX_PAN).net, BOX_PAN, allowed)).toBe(false);
    expect(allowed.left).toBe(spent);
  });
});
