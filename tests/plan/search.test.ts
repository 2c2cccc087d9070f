import { tips } from '../../src/plan/search/cost.ts';
import type { Stroke } from '../../src/plan/search/stroke.ts';
import { describe, expect, test } from 'vitest';
import { planFolds } from '../../src/plan/search/plan.ts';
import { planResult } from '../../src/plan/search/plan-result.ts';
import { caseOf, FOLDING, readOf } from './cases.ts';
import { corrugated, flappedTray, profileStrip, tooDeepChannel } from './parts.ts';
import { inTurns } from '../helpers/extent.ts';

const FINGERS = 'boxpan-1250x2.0';

describe('a part with no order', () => {
  // The channel of FC02 at the end of a strip: its two folds block each other, whatever is done
  // with all others.
  test.each([4, 12, 20])(
    'of %i folds is proved to have none, by the folds that block each other',
    (folds) => {
      const { net, machine } = readOf(tooDeepChannel(FINGERS, folds));
      const answer = planFolds(net, machine);
      expect(answer.verdict).toBe('impossible');
      expect(answer.blockingSet?.map((f) => net.folds[f]?.id)).toEqual([
        `b${folds - 1}`,
        `b${folds}`,
      ]);
    },
  );

  test.each(FOLDING.cases.map((c) => [c.id, c] as const))(
    '%s: few folds block each other only where there is no order',
    (_, given) => {
      const { net, machine } = readOf(given);
      const answer = planFolds(net, machine);
      if (answer.blockingSet !== undefined) expect(given.expected.feasible).toBe(false);
    },
  );
});

describe('where the budget runs out', () => {
  test.each(inTurns([tooDeepChannel(FINGERS, 20), corrugated(FINGERS, 20), caseOf('FC09')], 0, 2))(
    'the answer is not decided, or right: case %#',
    (given) => {
      const { net, machine } = readOf(given);
      // Nothing but the verdict is asked for: lists, dead ends and the cheapest of all take longest.
      const asked = { mostOrders: 0, explain: false };
      const decided = planFolds(net, machine, { ...asked, budget: 1_000_000 }).verdict;
      expect(decided).not.toBe('not decided');
      for (const budget of [1, 1000, 30_000])
        expect(['not decided', decided]).toContain(
          planFolds(net, machine, { ...asked, budget }).verdict,
        );
    },
  );

  test('a part that can be folded is not called impossible', () => {
    const { net, machine } = readOf(corrugated(FINGERS, 12));
    expect(planFolds(net, machine, { budget: 1 }).verdict).toBe('not decided');
    const result = planResult(planFolds(net, machine, { budget: 1, count: true }), machine.id);
    expect(result).toMatchObject({ feasible: null, feasibleOrders: null, foldPlan: null });
  });
});

describe('the cost', () => {
  // Worked by hand: W and E, S and N lie the same way on the table when the other side is clamped,
  // so that the part is turned once if it is not turned round; with the base always clamped it
  // takes three turns.
  test('a box is turned as little as can be', () => {
    const { net, machine } = readOf(caseOf('FC07'));
    const { foldPlan } = planResult(planFolds(net, machine), machine.id);
    expect(foldPlan?.cheapest).toBe(true);
    expect(foldPlan?.steps.filter((s) => s.turnDeg > 0).length).toBeLessThanOrEqual(3);
  });

  test('20 flaps: side by side on the table, and proved to be cheapest', () => {
    const { net, machine } = readOf(flappedTray(FINGERS, 20));
    const { foldPlan } = planResult(planFolds(net, machine), machine.id);
    expect(foldPlan).toMatchObject({ cheapest: true, flips: 0 });
  });

  // Clamped by 30, the middle of the 60 that are swung comes to lie 30 cos A in front of the bed's
  // edge, and the whole part's to (60 x 30 cos A - 30 x 15) / 90: it tips below 75.5 deg.
  test.each([
    [30, true],
    [70, true],
    [80, false],
    [90, false],
  ])(
    'a strip clamped by its shorter side and bent by %d deg tips over when it is let go: %s',
    (deg, isTold) => {
      const { net, machine } = readOf({
        ...profileStrip(FINGERS, [30, 60], [deg]),
        machine: { profile: FINGERS, settings: { overbend_deg: 0 } },
      } as never);
      const [stroke] = planFolds(net, machine).lattice.strokes;
      expect([0, 1].map((placement) => tips(net, stroke as Stroke, placement as 0 | 1, 0))).toEqual(
        [isTold, false],
      );
    },
  );

  // Up, up, down, down: all folds of one direction at a time would take one flip; here nothing
  // stands in the way.
  test('a wide corrugation is turned over once', () => {
    const { net, machine } = readOf(
      profileStrip('pressbrake-1250', [200, 200, 200, 200, 200], [30, 30, -30, -30]),
    );
    const { foldPlan } = planResult(planFolds(net, machine), machine.id);
    expect(foldPlan?.steps.slice(1).filter((s) => s.flip)).toHaveLength(1);
  });
});

test('a fold longer than the machine is refused with both figures', () => {
  const { net, machine } = readOf(profileStrip(FINGERS, [100, 100], [90], 1300));
  const result = planResult(planFolds(net, machine), machine.id);
  expect(result.feasible).toBe(false);
  expect(result.blocked[0]?.parent_side_clamped).toBe(
    "a fold of 1300 mm is longer than the machine's 1250 mm",
  );
});

test('an angle beyond the machine is refused', () => {
  const { net, machine } = readOf(profileStrip(FINGERS, [100, 100], [150]));
  expect(planResult(planFolds(net, machine), machine.id).blocked[0]?.child_side_clamped).toBe(
    "150 deg is more than the machine's 135 deg",
  );
});

// Check K6: a standing neighbour needs 20 mm x tan(overbend) of room, 1.75 mm at 5 degrees and 2.46
// at 7; the contact gap is left on top of what is tried here.
test.each([
  [5, 1.75],
  [7, 2.46],
])('overbend of %i degrees needs a corner notch of %d mm', (overbend_deg, notch) => {
  const corner = (gap: number) => {
    const given = caseOf('FC07');
    const south = [
      [
        [gap, -60],
        [200 - gap, -60],
        [200 - gap, 0],
        [gap, 0],
      ],
    ] as const;
    const panels = given.part.panels
      .map((p) => (p.id === 'S' ? { ...p, pieces: south } : p))
      .filter((p) => p.id !== 'N' && p.id !== 'E');
    const bends = given.part.bends
      .filter((b) => b.id !== 'N' && b.id !== 'E')
      .map((b) =>
        b.id === 'S'
          ? {
              ...b,
              line: [
                [gap, 0],
                [200 - gap, 0],
              ] as const,
            }
          : b,
      );
    const { net, machine } = readOf({
      ...given,
      machine: { ...given.machine, settings: { overbend_deg } },
      part: { ...given.part, panels, bends },
    });
    return Number(planFolds(net, machine, { count: true }).orderCount);
  };
  expect(corner(notch + 0.1)).toBe(2);
  expect(corner(notch - 0.6)).toBe(1);
});
