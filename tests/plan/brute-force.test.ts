import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  changeCost,
  hasSmallGrip,
  orientationOf,
  startCost,
  strokeCost,
  tips,
  toolsCost,
} from '../../src/plan/search/cost.ts';
import type { FoldNet } from '../../src/plan/machines/net.ts';
import type { Lattice } from '../../src/plan/search/lattice.ts';
import type { Placement } from '../../src/plan/machines/placed-part.ts';
import { planFolds } from '../../src/plan/search/plan.ts';
import { planResult } from '../../src/plan/search/plan-result.ts';
import { whyNot } from '../../src/plan/search/reasons.ts';
import type { Stroke } from '../../src/plan/search/stroke.ts';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';
import { readOf } from './cases.ts';
import { randomCase } from './random-case.ts';
import { replay } from './replay.ts';

/** A stroke asked for its reason as if alone; the rest by hand has none to tell, and is asked for itself. */
const canBeAlone = (net: FoldNet, stroke: Stroke, made: number, placement: Placement): boolean =>
  whyNot(net, stroke, made, placement) === undefined &&
  (stroke.rules.help !== 'rest by hand' || stroke.isClear(made, placement));

interface Tried {
  readonly orders: number;
  readonly cheapest: number;
}

/**
 * Every order and every way of holding, one after the other: no state is given up, nothing is taken
 * from the tables of the search, and each stroke is asked for its reason as if alone.
 */
const tryAll = ({ net, strokes, full }: Lattice): Tried => {
  const asked = new Map<string, boolean>();
  const canBe = (s: number, made: number, placement: Placement): boolean => {
    const key = `${s} ${made} ${placement}`;
    const known =
      asked.get(key) ??
      ((strokes[s] as Stroke).isInLine(made) &&
        canBeAlone(net, strokes[s] as Stroke, made, placement));
    asked.set(key, known);
    return known;
  };
  let orders = 0;
  let cheapest = Infinity;
  const goOn = (
    made: number,
    ways: readonly {
      readonly s: number;
      readonly placement: Placement;
      readonly setUp: string;
      readonly cost: number;
    }[],
  ): void => {
    if (made === full) {
      orders += 1;
      cheapest = Math.min(cheapest, ...ways.map((w) => w.cost));
      return;
    }
    for (let s = 0; s < strokes.length; s++) {
      const stroke = strokes[s] as Stroke;
      if ((made & stroke.bits) !== 0) continue;
      const placements = ([0, 1] as const).filter((p) => canBe(s, made, p));
      if (placements.length === 0) continue;
      const next = placements.map((placement) => {
        const setUp = stroke.setUp(made, placement);
        const before = ways.map(
          (w) =>
            w.cost +
            toolsCost(w.setUp, setUp) +
            changeCost(
              orientationOf(net, strokes[w.s] as Stroke, w.placement),
              orientationOf(net, stroke, placement),
            ),
        );
        return {
          s,
          placement,
          setUp,
          cost:
            ownCost(net, stroke, placement, made) +
            (made === 0 ? startCost(orientationOf(net, stroke, placement)) : Math.min(...before)),
        };
      });
      goOn(made | stroke.bits, next);
    }
  };
  goOn(0, []);
  return { orders, cheapest };
};

const ownCost = (net: FoldNet, stroke: Stroke, placement: Placement, made: number): number =>
  strokeCost(net, stroke, placement, {
    isTipped: tips(net, stroke, placement, made),
    isSmallGrip: hasSmallGrip(stroke, placement, made),
  });

const costOf = ({ lattice: { net, strokes }, moves }: ReturnType<typeof planFolds>): number =>
  moves.reduce((sum, move, i) => {
    const last = moves[i - 1];
    const stroke = strokes[move.stroke] as Stroke;
    const made = moves.slice(0, i).reduce((bits, m) => bits | (strokes[m.stroke]?.bits ?? 0), 0);
    const change =
      last === undefined
        ? startCost(orientationOf(net, stroke, move.placement))
        : toolsCost(
            (strokes[last.stroke] as Stroke).setUp(
              made & ~(strokes[last.stroke] as Stroke).bits,
              last.placement,
            ),
            stroke.setUp(made, move.placement),
          ) +
          changeCost(
            orientationOf(net, strokes[last.stroke] as Stroke, last.placement),
            orientationOf(net, stroke, move.placement),
          );
    return sum + change + ownCost(net, stroke, move.placement, made);
  }, 0);

const agree = (mostFolds: number, runs: number): { feasible: number; impossible: number } => {
  const seen = { feasible: 0, impossible: 0 };
  fc.assert(
    fc.property(randomCase(mostFolds), (given) => {
      const { net, machine } = readOf(given);
      const answer = planFolds(net, machine, { count: true });
      const tried = tryAll(answer.lattice);
      expect(answer.orderCount).toBe(BigInt(tried.orders));
      expect(answer.verdict).toBe(tried.orders > 0 ? 'feasible' : 'impossible');
      if (answer.verdict === 'not decided') return;
      seen[answer.verdict] += 1;
      if (answer.verdict === 'feasible') expect(costOf(answer)).toBe(tried.cheapest);
    }),
    { numRuns: runs },
  );
  return seen;
};

test('the planner agrees with trying every order of up to 5 folds', () => {
  const seen = agree(5, fuzzRuns(300));
  // Both answers must be common, or the test says nothing of one.
  expect(seen.feasible).toBeGreaterThan(shareOf(60));
  expect(seen.impossible).toBeGreaterThan(shareOf(30));
});

test('and of up to 7', () => {
  agree(7, fuzzRuns(200));
});

// Any fold may be beyond the machine, and any light enough for a block or for its last degrees.
test('with the help of hands too, of up to 3 folds, and no order takes less help', () => {
  const seen = { feasible: 0, impossible: 0, helped: 0 };
  fc.assert(
    fc.property(randomCase(3), fc.nat(7), fc.nat(7), fc.nat(7), (given, beyond, block, rest) => {
      const { net, machine } = readOf(given);
      const hands = { beyondMachine: beyond & block, overBlock: block, rest };
      const answer = planFolds({ ...net, hands }, machine, { onlyOrder: true });
      const tried = tryAll(answer.lattice);
      expect(answer.verdict).toBe(tried.orders > 0 ? 'feasible' : 'impossible');
      if (answer.verdict === 'not decided') return;
      seen[answer.verdict] += 1;
      if (answer.verdict !== 'feasible') return;
      expect(costOf(answer)).toBe(tried.cheapest);
      const alone = planFolds(net, machine, { mostOrders: 0 });
      const helps = answer.moves.filter((m) => answer.lattice.strokes[m.stroke]?.rules.help);
      if (helps.length > 0) seen.helped += 1;
      // Hands come in only where the machine, asked for those folds too, has no order.
      if (hands.beyondMachine === 0) expect(helps.length > 0).toBe(alone.verdict === 'impossible');
      if (alone.verdict === 'feasible' && hands.beyondMachine === 0)
        expect(answer.moves.map((m) => answer.lattice.strokes[m.stroke]?.folds)).toEqual(
          alone.moves.map((m) => alone.lattice.strokes[m.stroke]?.folds),
        );
    }),
    { numRuns: fuzzRuns(150) },
  );
  expect(seen.feasible).toBeGreaterThan(shareOf(30));
  expect(seen.helped).toBeGreaterThan(shareOf(10));
});

test('every plan of a random tree stands the replay', () => {
  fc.assert(
    fc.property(randomCase(5), (given) => {
      const { net, machine } = readOf(given);
      const { foldPlan } = planResult(planFolds(net, machine), machine.id);
      if (foldPlan !== null) expect(replay(given, foldPlan, 10)).toEqual([]);
    }),
    { numRuns: fuzzRuns(40) },
  );
});
