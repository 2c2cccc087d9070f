import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { MACHINES } from '../../src/data/machines.ts';
import type { WholePart } from '../../src/use/made-part.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import type { FoldPlan } from '../../src/contract/fold-plan.ts';
import { planOnShop } from '../../src/plan/of-part/shop-plan.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { fuzzRuns, inTurns } from '../helpers/extent.ts';
import { askedDuct } from '../helpers/random-ducts.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

type Inputs = Readonly<Record<string, unknown>>;

const blanksOf = async (inputs: Inputs): Promise<readonly WholePart[]> => {
  const made = makeParts(await loadFamily('duct-between'), inputs, UNPLANNED);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.parts.flatMap((p) => (p.stopped || p.part.folds.length === 0 ? [] : [p]));
};

/** Reasons that whoever stands at a machine finds himself: no strip, something in the way, too weak. */
const REASON =
  /lie flat|swings? into|stands where|would lie inside|lies inside|occupies|would be lifted|no tools reach|the machine|rated/;

/** Most that is folded over a bar: mild steel 3 mm thick and 50 wide, Rm t^2 L / 4 (common practice). */
const MOST_NMM = 60_000;

const expectPlan = ({ part, flat, material }: WholePart, plan: FoldPlan): void => {
  if (plan.feasible !== true) {
    const [first] = plan.blockedBy;
    if (first === undefined) expect(plan.blockEachOther.length).toBeGreaterThan(0);
    else expect(first.reason).toMatch(REASON);
    return;
  }
  const made = plan.steps.flatMap(({ bend }) => bend.split(' + '));
  expect(new Set(made)).toEqual(new Set(part.folds.map(({ id }) => id)));
  const creases = plan.steps.filter(({ way }) => way === 'by eye');
  for (const { bend, stopAtDeg } of creases) {
    const [[ax, ay], [bx, by]] = flat.bends.find(({ id }) => id === bend)?.centreLine ?? [
      [0, 0],
      [Infinity, 0],
    ];
    const most = Math.max(...material.tensileMpa.value.map((rm) => rm ?? 0));
    expect((most * part.thicknessMm ** 2 * Math.hypot(bx - ax, by - ay)) / 4).toBeLessThan(
      MOST_NMM,
    );
    expect(stopAtDeg).toBeLessThanOrEqual(30);
  }
  // From the outside in: all on one side of a crease are made before it. Folds are numbered along the walls.
  const order = creases.map(({ bend }) => Number(bend.slice(1)));
  order.forEach((place, i) => {
    const left = order.slice(i + 1);
    const [before, after] = [left.filter((o) => o < place), left.filter((o) => o > place)];
    expect(Math.min(before.length, after.length), `F${place}`).toBe(0);
  });
};

const planOn = ({ part, flat, material }: WholePart, machine: (typeof MACHINES)[number]) =>
  planOnShop({ part, flat, material, bends: [] }, [machine])?.plan;

describe('every blank has an order on every machine, or a reason', () => {
  test('of the examples', async () => {
    const { examples } = await loadFamily('duct-between');
    let folded = 0;
    for (const { inputs } of examples)
      for (const blank of await blanksOf({ ...inputs, hand: 'left' }))
        for (const machine of MACHINES) {
          const plan = planOn(blank, machine);
          if (plan === undefined) throw new Error(`${blank.result.name} has no plan`);
          expectPlan(blank, plan);
          folded += plan.feasible === true ? 1 : 0;
        }
    // Eight blanks on three machines.
    expect(folded).toBe(24);
  });

  test('of random ducts, thick and thin, in both hands', async () => {
    const family = await loadFamily('duct-between');
    let turn = 0;
    fc.assert(
      fc.property(askedDuct, fc.constantFrom(0.8, 1, 1.5, 2), (inputs, thickness) => {
        const hand = turn % 2 === 0 ? 'left' : 'right';
        const made = makeParts(family, { ...inputs, thickness, material: 'dc01', hand }, UNPLANNED);
        if (!made.ok) throw new Error(JSON.stringify(made.problems));
        for (const blank of made.parts) {
          if (blank.stopped || blank.part.folds.length === 0) continue;
          for (const machine of inTurns(MACHINES, (turn += 1), 3)) {
            const plan = planOn(blank, machine);
            if (plan === undefined) throw new Error('no plan');
            expectPlan(blank, plan);
          }
        }
      }),
      { numRuns: fuzzRuns(18, 6) },
    );
    expect(turn).toBeGreaterThan(0);
  });
});

describe('blanks auto goes by the machines', () => {
  const made = async (inputs: Inputs) => {
    const { parts } = await wholeDuct(inputs);
    return {
      pieces: parts.map(({ result }) => result.piece),
      isFoldable: parts.every(({ result }) => result.foldPlan?.feasible === true),
      ways: new Set(parts.flatMap(({ result }) => result.foldPlan?.steps.map((s) => s.way) ?? [])),
      rules: new Set(parts.flatMap(({ result }) => result.findings.map((f) => f.rule))),
    };
  };
  const wholeDuct = async (inputs: Inputs) => {
    const found = makeParts(await loadFamily('duct-between'), inputs, { shop: DEFAULT_SHOP });
    if (!found.ok) throw new Error(JSON.stringify(found.problems));
    return found;
  };

  test('thin sheet and a fan of creases: one blank and one weld, by eye', async () => {
    const duct = await made({ near: '6in x 4in r12', far: 'round 4in', length: 120, ...THIN });
    expect(duct).toMatchObject({ pieces: [null], isFoldable: true });
    // The creases beside the flat walls turn by more than the eye is trusted with.
    expect(duct.ways).toEqual(new Set(['machine', 'by eye']));
    expect(duct.rules.has('folds-by-eye')).toBe(true);
    expect(duct.rules.has('chosen-by-machine')).toBe(false);
  });

  test.each([
    [
      'four walls too long to be closed by hand: halves',
      2,
      { near: '180 x 120', far: '140 x 90', length: 400, thickness: 1.5 },
    ],
    [
      '2 mm, too heavy for a bar in the vice: thirds',
      3,
      { near: '180 x 120 r12', far: 'round 100', length: 200, thickness: 2 },
    ],
  ])('%s', async (_, count, inputs) => {
    const left = await made({ ...inputs, material: 'dc01' });
    expect(left).toMatchObject({ isFoldable: true });
    expect(left.pieces).toHaveLength(count);
    expect(left.rules.has('chosen-by-machine')).toBe(true);
    const right = await made({ ...inputs, material: 'dc01', hand: 'right' });
    expect(right.pieces).toEqual(left.pieces);
    expect(right.isFoldable).toBe(true);
  });

  test('what is asked for is kept, and stops with the reason where it is to be folded here', async () => {
    const { parts } = await wholeDuct({
      near: '180 x 120',
      far: '140 x 90',
      length: 400,
      blanks: 'one',
      material: 'dc01',
      thickness: 1.5,
    });
    const [finding] = parts.flatMap(({ result }) =>
      result.findings.filter(({ rule }) => rule === 'no-fold-order'),
    );
    expect(parts).toHaveLength(1);
    expect(finding?.message).toMatch(/after F.* cannot be made, /);
  });
});

const THIN = { material: 'dc01', thickness: 1 } as const;
