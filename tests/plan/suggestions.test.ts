import { practice } from '../../src/data/sourced.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import { STRAIGHT } from '../../src/data/machines/straight.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import type { FoldPlan } from '../../src/contract/fold-plan.ts';
import type { Machine } from '../../src/model/machine.ts';
import type { PartPlan } from '../../src/plan/of-part/part-plan.ts';
import type { PartToFold } from '../../src/plan/of-part/plan-steps.ts';
import { planFindings, planOnShop } from '../../src/plan/of-part/shop-plan.ts';
import { withSuggestions } from '../../src/plan/of-part/suggestions.ts';
import { BUDGET } from '../../src/plan/search/lattice.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { planParts } from '../../src/use/plan/plan-parts.ts';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { madeOnce } from '../helpers/made-once.ts';

type Inputs = Record<string, unknown>;
interface Asked {
  readonly family: string;
  readonly inputs: Inputs;
  readonly machines: readonly Machine[];
}

const length = (min: number, max: number) =>
  fc.integer({ min: 2 * min, max: 2 * max }).map((n) => n / 2);

const own = <T>(value: T) => ({ value, basis: 'measured', source: 'the shop file' }) as const;
/** A folder with a leaf as thick as a fist, and one for thin sheet: neither is help for the other. */
const CLUMSY: Machine = {
  ...BOX_PAN,
  id: 'clumsy',
  name: 'clumsy folder',
  leafEdgeMm: own({ barFitted: 60, barRemoved: 50 }),
};
const WEAK: Machine = {
  ...STRAIGHT,
  id: 'weak',
  name: 'weak folder',
  capacityMm: own(1),
  overbendDeg: own(6),
};

const SHEETS = fc.constantFrom(
  ['dc01', 1],
  ['dc01', 1.5],
  ['s235', 2],
  ['s235', 2.5],
  ['1.4301', 1.5],
  ['5754-h111', 2],
  ['s235', 4],
);

const brackets: fc.Arbitrary<{ family: string; inputs: Inputs }> = fc.oneof(
  fc
    .record({ flangeA: length(8, 160), web: length(20, 120), flangeB: length(8, 160) })
    .map((inputs) => ({
      family: 'bracket-channel',
      inputs,
    })),
  fc
    .record({ flangeA: length(8, 160), offset: length(8, 60), flangeB: length(8, 160) })
    .map((inputs) => ({
      family: 'bracket-zed',
      inputs,
    })),
  fc
    .record({
      footA: length(8, 60),
      footB: length(8, 60),
      crown: length(30, 90),
      height: length(20, 90),
    })
    .map((inputs) => ({ family: 'bracket-hat', inputs })),
  fc
    .record({
      legA: length(6, 60),
      legB: length(6, 60),
      bendAngle: fc.integer({ min: 30, max: 140 }),
    })
    .map((inputs) => ({ family: 'bracket-angle', inputs })),
);

const asked: fc.Arbitrary<Asked> = fc
  .record({
    bracket: brackets,
    sheet: SHEETS,
    width: fc.constantFrom(40, 100, 300, 800, 1300),
    machines: fc.constantFrom<readonly Machine[]>(
      [BOX_PAN],
      [BOX_PAN, STRAIGHT],
      [STRAIGHT, PRESS_BRAKE],
      [BOX_PAN, STRAIGHT, PRESS_BRAKE],
      [CLUMSY, WEAK],
    ),
  })
  .map(({ bracket, sheet: [id, thickness], width, machines }) => ({
    family: bracket.family,
    inputs: { ...bracket.inputs, width, material: id, thickness, radius: thickness },
    machines,
  }));

/** The part, made once for all machines that are asked about it. */
const toFold = async ({ family, inputs, machines }: Asked): Promise<PartToFold | undefined> => {
  const shop = { ...DEFAULT_SHOP, machines };
  const made = madeOnce(await loadFamily(family), inputs, { foldAt: 'service', shop });
  const [one] = made.ok ? made.parts : [];
  if (one?.flat === undefined) return undefined;
  const { part, flat, material } = one;
  return { part, flat, material, bends: [] };
};

/** What `plan` finds on some machines, but for other designs, which take it far longer. */
const planOn = (
  fold: PartToFold,
  machines: readonly Machine[],
  byMachineOnly = false,
): PartPlan | undefined => planOnShop(fold, machines, BUDGET, { byMachineOnly });

const planOf = async (given: Asked, byMachineOnly = false): Promise<FoldPlan | null> => {
  const fold = await toFold(given);
  const found = fold && planOn(fold, given.machines, byMachineOnly);
  return fold === undefined || found === undefined
    ? null
    : withSuggestions(fold, found, given.machines);
};

/** Whether what a suggestion says, done, leads to a plan. */
const helps = async (given: Asked, suggestion: string): Promise<boolean> => {
  const { machines } = given;
  const fold = await toFold(given);
  const on = (changed: readonly Machine[]): boolean =>
    fold !== undefined && planOn(fold, changed)?.plan.feasible === true;
  const other = /^fold it on (.*?)(?:, with the (?:punch .+|bar off its leaf))?$/.exec(suggestion);
  if (other !== null) return on(machines.filter((m) => m.name === other[1]));
  // What is sent out, slit or welded up needs no machine of the shop.
  return /^have it pressed|^slit it|^weld it there/.test(suggestion);
};

describe('what is suggested for a part that cannot be folded', () => {
  test('leads to a plan, each by itself', async () => {
    let told = 0;
    await fc.assert(
      fc.asyncProperty(asked, async (given) => {
        const plan = await planOf(given);
        if (plan?.feasible !== false) return;
        const all = new Set(plan.blockedBy.flatMap((b) => b.suggestion?.split('; or ') ?? []));
        for (const suggestion of all) {
          told += 1;
          expect(await helps(given, suggestion), suggestion).toBe(true);
        }
      }),
      { numRuns: fuzzRuns(120) },
    );
    expect(told).toBeGreaterThan(shareOf(40));
  });

  // The redesigns of a part are told beside those; each is made as a whole before it is told.
  test('another design leads to a plan and a proof, each by itself', async () => {
    let told = 0;
    await fc.assert(
      fc.asyncProperty(asked, async (given) => {
        const template = await loadFamily(given.family);
        const shop = { ...DEFAULT_SHOP, machines: given.machines };
        const planned = planParts({ template, inputs: given.inputs, shop });
        if (!planned.ok) return;
        expect(planned.result.parts[0]?.foldPlan ?? null).toEqual(await planOf(given));
        if (planned.isFoldable) return;
        for (const { inputs, flags } of planned.result.redesigns) {
          told += 1;
          const made = makeParts(
            template,
            { ...given.inputs, ...inputs },
            { shop, foldAt: 'here' },
          );
          const isWhole = (p: MadePart): boolean =>
            !p.stopped &&
            p.result.proof !== null &&
            (p.part.folds.length === 0 || p.plan?.plan.feasible === true);
          expect(made.ok && made.parts.every(isWhole), flags).toBe(true);
        }
      }),
      { numRuns: fuzzRuns(40) },
    );
    expect(told).toBeGreaterThan(shareOf(10));
  });

  // Its flanges of 11 lie on the clumsy folder's leaf, which is too thick for the web; the weak one
  // has no room for them under its clamp, and needs 25 (1 / 1)^2 1200 / 2000 = 15 mm to fold them.
  test('a machine that refuses the part for a reason of its own is not recommended', async () => {
    const inputs = { flangeA: 11, offset: 30, flangeB: 11, width: 1200, radius: 1 };
    const given: Asked = {
      family: 'bracket-zed',
      inputs: { ...inputs, material: 'dc01', thickness: 1 },
      machines: [CLUMSY, WEAK],
    };
    for (const machines of [given.machines, given.machines.toReversed()]) {
      const plan = await planOf({ ...given, machines }, true);
      expect(plan?.feasible).toBe(false);
      expect(plan?.blockedBy.map((b) => b.suggestion).join()).not.toMatch(/fold it on/);
    }
  });

  // Without its bar a leaf takes two gauges less (rule R11 of tests/published/folding.json), and so
  // do fingers: 1250 (2 x 0.71 x 0.71 / 2)^2 = 318 mm of 2 mm sheet.
  test.each([
    [300, true],
    [600, false],
  ])('the bar comes off the leaf for %d mm: %s', async (width, can) => {
    const given: Asked = {
      family: 'bracket-zed',
      inputs: {
        flangeA: 60,
        offset: 20,
        flangeB: 60,
        width,
        material: 'dc01',
        thickness: 2,
        radius: 1,
      },
      machines: [BOX_PAN],
    };
    const plan = await planOf(given);
    expect(plan?.feasible).toBe(can);
    expect(plan?.barTakenOff).toBe(can ? true : undefined);
    expect(planFindings(plan ?? undefined, 'auto').map((f) => f.rule)).toEqual([
      can ? 'leaf-bar-off' : 'no-fold-order',
    ]);
    if (can) {
      expect(plan?.steps.map((s) => s.card.barFitted)).toEqual([false, false]);
      expect(plan?.steps[0]?.note).toMatch(/^take the bar off the leaf before/);
      // A shop that keeps the bar off is told nothing of it.
      const bare = { ...BOX_PAN, isLeafBarFitted: practice(false) };
      expect((await planOf({ ...given, machines: [bare] }))?.barTakenOff).toBeUndefined();
    }
    const elsewhere = await planOf({ ...given, machines: [CLUMSY, BOX_PAN] }, true);
    expect(elsewhere?.machine).toBe(can ? BOX_PAN.id : CLUMSY.id);
  });

  test('the gooseneck that a shop owns is taken without asking', async () => {
    const plan = await planOf({
      family: 'bracket-channel',
      inputs: {
        flangeA: 38,
        web: 40,
        flangeB: 38,
        width: 100,
        material: 'dc01',
        thickness: 1,
        radius: 1,
      },
      machines: [PRESS_BRAKE],
    });
    expect(plan).toMatchObject({
      feasible: true,
      steps: [
        { note: expect.stringContaining('punch gooseneck-8') as string },
        { note: expect.stringContaining('punch gooseneck-8') as string },
      ],
    });
    const [straight] = PRESS_BRAKE.punches.filter((p) => p.id === PRESS_BRAKE.punch);
    const without = await planOf(
      {
        family: 'bracket-channel',
        inputs: { flangeA: 38, web: 40, flangeB: 38, width: 100, material: 'dc01', thickness: 1 },
        machines: [{ ...PRESS_BRAKE, punches: straight === undefined ? [] : [straight] }],
      },
      true,
    );
    expect(without?.feasible).toBe(false);
  });
});
