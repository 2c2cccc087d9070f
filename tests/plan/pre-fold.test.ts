import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import { findMaterial } from '../../src/data/materials.ts';
import { type FoldScene, foldScenes } from '../../src/paper/draw/fold-scene.ts';
import { meshSection } from '../../src/paper/draw/mesh-section.ts';
import { stepWords } from '../../src/paper/draw/fold-words.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import { rescuedPart } from '../../src/plan/of-part/other-plans.ts';
import { planPart } from '../../src/plan/of-part/part-plan.ts';
import { planFolds } from '../../src/plan/search/plan.ts';
import { rescueByPreFolds } from '../../src/plan/search/rescue.ts';
import { planResult } from '../../src/plan/search/plan-result.ts';
import { planFindings, planOnShop } from '../../src/plan/of-part/shop-plan.ts';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';
import { fold, panel, part } from '../helpers/parts.ts';
import { FOLDING, type FoldingCase, readOf } from './cases.ts';
import { profileStrip } from './parts.ts';
import { randomCase } from './random-case.ts';
import { replay } from './replay.ts';
import type { PlanResult, StepResult } from '../../src/contract/panel-plan.ts';
import type { PartToFold } from '../../src/plan/of-part/plan-steps.ts';

const BUDGET = 1_000_000;

/** @param isShortened whether folds that still block each other spare the search for an order */
const rescue = (given: FoldingCase, isShortened = true): PlanResult => {
  const { net, machine } = readOf(given);
  const answer = planFolds(net, machine, { count: true });
  const blockingSet = isShortened ? answer.blockingSet : undefined;
  const rescued =
    answer.verdict === 'impossible'
      ? rescueByPreFolds(net, machine, { blockingSet, budget: BUDGET })
      : undefined;
  return planResult(answer, machine.id, rescued);
};

const onBrake = (widths: readonly number[], angles: readonly number[]): FoldingCase => ({
  ...profileStrip('pressbrake-1250', widths, angles, 60),
  id: 'strip',
  machine: {
    profile: 'pressbrake-1250',
    settings: { V_mm: 12, punch: 'straight', punch_height_mm: 130, overbend_deg: 2 },
  },
  expected: { feasible: false },
});

/**
 * A step of 15 mm between long legs: once one leg stands, it hangs in the die at the other fold.
 */
const STEPPED = onBrake([90, 15, 90], [90, -90]);

/**
 * Goes through orders of strokes, each fold at once or in two, with either side clamped, until the
 * replay meets nothing. No state is gone on from twice.
 */
const byReplay = (given: FoldingCase, inTwo: boolean): boolean => {
  const made = (
    bend: string,
    clampedSide: 'parent' | 'child',
    stopAtDeg: number,
    half?: StepResult['inTwo'],
  ): StepResult => ({
    bend,
    clampedSide,
    stopAtDeg,
    clampedPanel: '',
    flip: false,
    turnDeg: 0,
    stopMm: 0,
    fingersMm: [[60]],
    ...(half !== undefined && { inTwo: half }),
  });
  const angleOf = (id: string): number =>
    Math.abs(given.part.bends.find((b) => b.id === id)?.angle_deg ?? 0);
  const dead = new Set<string>();
  const go = (steps: readonly StepResult[], stands: ReadonlyMap<string, number>): boolean => {
    const state = given.part.bends.map((b) => stands.get(b.id) ?? 0).join();
    if (dead.has(state)) return false;
    dead.add(state);
    const left = given.part.bends
      .filter((b) => (stands.get(b.id) ?? 0) < Math.abs(b.angle_deg))
      .map((b) => b.id);
    if (left.length === 0) return true;
    return left.some((id) =>
      (['parent', 'child'] as const).some((side) =>
        (inTwo && !stands.has(id) ? [1, 0.5] : [1]).some((share) => {
          const to = share * angleOf(id);
          const half: StepResult['inTwo'] =
            share < 1
              ? { stroke: 1, keepsDeg: to, otherStep: 0 }
              : stands.has(id)
                ? { stroke: 2, keepsDeg: to, otherStep: 0 }
                : undefined;
          const next = [...steps, made(id, side, to + 2 * share, half)];
          const faults = replay(
            given,
            { machine: '', feasible: true, cheapest: false, flips: 0, steps: next },
            20,
          );
          return (
            faults.every((f) => f === 'not every bend is made') &&
            go(next, new Map([...stands, [id, to]]))
          );
        }),
      ),
    );
  };
  return go([], new Map());
};

describe('a part without an order at one stroke for each fold', () => {
  test('is rescued by a fold made to half its angle first; every order replayed at 1 degree says the same', () => {
    const { feasible, foldPlan, feasibleOrders, preFoldPlan } = rescue(STEPPED);
    expect([feasible, foldPlan, feasibleOrders]).toEqual([false, null, 0]);
    expect(preFoldPlan?.steps.map((s) => [s.bend, s.stopAtDeg, s.inTwo])).toEqual([
      ['b1', 47, { stroke: 1, keepsDeg: 45, otherStep: 3 }],
      ['b2', 92, undefined],
      ['b1', 92, { stroke: 2, keepsDeg: 90, otherStep: 1 }],
    ]);
    expect(preFoldPlan === null ? 'no plan' : replay(STEPPED, preFoldPlan)).toEqual([]);
    expect([byReplay(STEPPED, false), byReplay(STEPPED, true)]).toEqual([false, true]);
  });

  test('is left as it is where half-way folds do not help either', () => {
    // Legs that are far longer than the web between them swing into the ram, whatever they stood at
    // before.
    const deep = onBrake([160, 40, 160], [90, 90]);
    expect(rescue(deep)).toMatchObject({ feasible: false, preFoldPlan: null });
    expect(byReplay(deep, true)).toBe(false);
  });

  test('two folds in two strokes where one does not do', () => {
    const hat = onBrake([90, 15, 40, 15, 90], [90, -90, -90, 90]);
    const { preFoldPlan } = rescue(hat);
    expect(preFoldPlan?.steps.filter((s) => s.inTwo?.stroke === 1)).toHaveLength(2);
    expect(preFoldPlan === null ? 'no plan' : replay(hat, preFoldPlan)).toEqual([]);
  });
});

test('the worked cases keep their verdicts, and none has a second plan beside its first', () => {
  for (const given of FOLDING.cases) {
    const { feasible, preFoldPlan } = rescue(given);
    expect([given.id, feasible]).toEqual([given.id, given.expected.feasible]);
    if (feasible === true) expect(preFoldPlan).toBeNull();
    else if (preFoldPlan !== null) expect(replay(given, preFoldPlan)).toEqual([]);
  }
});

test('whatever is rescued of random trees and strips stands the replay, and nothing else is', () => {
  const width = fc.constantFrom(12, 15, 20, 25, 40, 90);
  const strips = fc
    .array(fc.tuple(width, fc.constantFrom(90, -90, -90, 45, -120)), { minLength: 2, maxLength: 4 })
    .map((folds) =>
      onBrake(
        [90, ...folds.map(([w]) => w)],
        folds.map(([, a]) => a),
      ),
    );
  let rescued = 0;
  fc.assert(
    fc.property(fc.oneof(randomCase(4), strips), (given) => {
      const { preFoldPlan } = rescue(given);
      expect(rescue(given, false).preFoldPlan).toEqual(preFoldPlan);
      if (preFoldPlan === null) return;
      rescued += 1;
      expect(replay(given, preFoldPlan, 10)).toEqual([]);
    }),
    // Few are rescued, and the first fifty of them are not.
    { numRuns: fuzzRuns(300) },
  );
  // Or the test says nothing.
  expect(rescued).toBeGreaterThan(shareOf(0));
});

describe('the plan of a part that is rescued', () => {
  const dc01 = findMaterial('dc01');
  if (!dc01.ok) throw new Error('dc01 is in the catalogue');
  const stepped = (leg: number): PartToFold => {
    const zed = part(
      [
        panel('foot', rectangle(0, 0, 120, leg)),
        panel('web', rectangle(0, 0, 120, 16)),
        panel('head', rectangle(0, 0, 120, leg)),
      ],
      [
        fold('A', { panel: 'foot', edge: 2 }, { panel: 'web', edge: 0 }, 90, 'up', 1.5),
        fold('B', { panel: 'web', edge: 2 }, { panel: 'head', edge: 0 }, 90, 'down', 1.5),
      ],
      { thicknessMm: 1.5 },
    );
    return { part: zed, flat: flatten(zed, { id: 'k', k: 0.42 }), material: dc01.value, bends: [] };
  };
  const long = stepped(90);
  const alone = planPart(long, PRESS_BRAKE);
  const rescued = rescuedPart(long, alone, BUDGET);
  if (rescued === undefined) throw new Error('a step of 16 mm is rescued');

  test('says of both strokes what they are', () => {
    expect([alone.plan.feasible, rescued.plan.feasible, rescued.plan.blockedBy]).toEqual([
      false,
      true,
      [],
    ]);
    const [first, between, last] = rescued.plan.steps;
    // DC01 at r = t springs back by 0.99, at half the angle as at the whole.
    expect(first).toMatchObject({
      bend: 'A',
      stopAtDeg: expect.closeTo(45 / 0.99, 6) as number,
      inTwo: { stroke: 1, keepsDeg: 45, otherStep: 3 },
    });
    expect(first?.note).toMatch(/^folded in part now, to 45 deg, and finished in step 3; about /);
    expect([between?.bend, between?.inTwo]).toEqual(['B', undefined]);
    expect(last).toMatchObject({
      bend: 'A',
      stopAtDeg: expect.closeTo(90 / 0.99, 6) as number,
      sightLineMm: null,
      from: 'the mark of step 1',
      inTwo: { stroke: 2, keepsDeg: 90, otherStep: 1 },
    });
    expect(last?.note).toMatch(/^finishes fold A, which stands at 45 deg since step 1; about /);
    expect(rescued.plan.steps.map((s, i) => stepWords(s, i + 1).title)).toEqual([
      '1. Fold A in part: stop at 45.5 degrees',
      '2. Fold B: stop at 90.9 degrees',
      '3. Fold A to its end: stop at 90.9 degrees',
    ]);
  });

  /** How far the swung panel at the fold is turned from level in the section, degrees. */
  const slope = ({ before, after, step }: FoldScene, when: 'before' | 'after'): number => {
    const slices = meshSection(when === 'before' ? before : after, 0.0137).cut.filter(
      (c) => c.of === step?.card.swungSide,
    );
    const [p, q] = slices[0]?.slice ?? [];
    return (
      (Math.abs(Math.atan(((q?.[1] ?? 0) - (p?.[1] ?? 0)) / ((q?.[0] ?? 0) - (p?.[0] ?? 0)))) *
        180) /
      Math.PI
    );
  };

  test('is drawn so: from flat to half, and from there to the end', () => {
    const [first, , last] = foldScenes(rescued, {
      part: long.part,
      flat: long.flat,
    }) as [FoldScene, FoldScene, FoldScene];
    // Of the press brake each leg rises by half: the foot is swung.
    expect([slope(first, 'before'), slope(first, 'after')]).toEqual([
      expect.closeTo(0, 6),
      expect.closeTo(45 / 0.99 / 2, 6),
    ]);
    expect([slope(last, 'before'), slope(last, 'after')]).toEqual([
      expect.closeTo(22.5, 6),
      expect.closeTo(90 / 0.99 / 2, 6),
    ]);
    const dieTop = (parts: FoldScene['machineBefore']): number =>
      Math.max(
        ...parts.filter((p) => p.name === 'die').flatMap((p) => p.pieces.flat().map(([, y]) => y)),
      );
    // Half of V 10, at half of 45 degrees, as far as it has risen by then.
    expect(dieTop(last.machineBefore) - dieTop(first.machineBefore)).toBeCloseTo(
      5 * Math.tan(Math.PI / 8),
      6,
    );
    expect(dieTop(first.machineAfter)).toBeCloseTo(dieTop(last.machineBefore), 6);
  });

  test('is taken only where no machine has a plain order, and is told as a finding', () => {
    expect(planOnShop(long, [BOX_PAN, PRESS_BRAKE])?.plan).toEqual(rescued.plan);
    expect(planFindings(rescued.plan, 'here')).toMatchObject([
      {
        rule: 'fold-in-two',
        severity: 'note',
        message: expect.stringContaining('fold A in steps 1 and 3') as string,
      },
    ]);
    const short = stepped(60);
    const plain = planPart(short, PRESS_BRAKE);
    expect([plain.plan.feasible, rescuedPart(short, plain, BUDGET)]).toEqual([true, undefined]);
    expect(planOnShop(short, [BOX_PAN, PRESS_BRAKE])?.plan).toEqual(plain.plan);
  });

  test('too long for the machine stays too long', () => {
    const weak = {
      ...PRESS_BRAKE,
      workingLengthMm: { ...PRESS_BRAKE.workingLengthMm, value: 100 },
    };
    expect(rescuedPart(long, planPart(long, weak), BUDGET)).toBeUndefined();
  });
});
