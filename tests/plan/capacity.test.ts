import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import { STRAIGHT } from '../../src/data/machines/straight.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { findMaterial } from '../../src/data/materials.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import { folderRules } from '../../src/plan/machines/folder.ts';
import { longestBendMm } from '../../src/plan/machines/bend-capacity.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import type { Machine } from '../../src/model/machine.ts';
import { planPart } from '../../src/plan/of-part/part-plan.ts';
import { planOnShop } from '../../src/plan/of-part/shop-plan.ts';
import { withSuggestions } from '../../src/plan/of-part/suggestions.ts';
import { readShop } from '../../src/shop/read.ts';
import { shopEntries, writeShop } from '../../src/shop/write.ts';
import { MM_PER_INCH } from '../../src/text/units.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { angle } from '../helpers/parts.ts';
import { publishedFile } from '../helpers/published.ts';
import { fileNames } from '../helpers/file-names.ts';
import type { PartToFold } from '../../src/plan/of-part/plan-steps.ts';

const toFold = (width: number, t: number, id = 'dc01'): PartToFold => {
  const material = findMaterial(id);
  if (!material.ok) throw new Error(material.reason);
  const part = angle(60 + 4 * t, 40 + 4 * t, width, 90, t, t);
  return { part, flat: flatten(part, { id: 'k', k: 0.42 }), material: material.value, bends: [] };
};

const plan = (fold: PartToFold, machine: Machine = BOX_PAN) => planPart(fold, machine).plan;

describe('sheet thicker than a machine is rated for', () => {
  // Article on brake capacity (tests/published/folding.json): 6 ft of 0.036 in or 2 ft of 0.060 in,
  // 1.67 times its rating.
  test('the published example goes to 1.67 times the rating; more than 1.7 is bent over no length', () => {
    const rated = { lengthMm: 72 * MM_PER_INCH, thicknessMm: 0.036 * MM_PER_INCH };
    expect(longestBendMm(rated, 0.06 * MM_PER_INCH)).toBeGreaterThanOrEqual(24 * MM_PER_INCH);
    expect(
      [1.69, 1.71].map((times) => longestBendMm(rated, times * rated.thicknessMm) > 0),
    ).toEqual([true, false]);
    // The calculated checks of the same file: 2.5 mm on 1250 x 2.0, 2.0 mm on 2000 x 1.5.
    const { calc_checks: checks } = publishedFile<{
      calc_checks: { id: string; expected: Record<string, number> }[];
    }>('folding');
    expect([
      longestBendMm({ lengthMm: 1250, thicknessMm: 2 }, 2.5),
      longestBendMm({ lengthMm: 2000, thicknessMm: 1.5 }, 2),
    ]).toEqual(
      Object.values(checks.find((c) => c.id === 'K4')?.expected ?? {}).map((mm) =>
        expect.closeTo(mm, 6),
      ),
    );
  });

  test.each([
    [38, 10],
    [30, 12],
    [10, 4],
    [5, 25],
  ])('a narrow piece does not make a 2 mm folder fold it: %d x %d mm', (width, t) => {
    const found = plan(toFold(width, t));
    expect([found.feasible, found.steps]).toEqual([false, []]);
    expect(found.blockedBy[0]?.reason).toMatch(
      new RegExp(
        `^${t} mm DC01 is more than the machine takes, however short the fold: it is rated for 2 mm`,
      ),
    );
  });

  test.each([
    [100, 3, true],
    [556, 3, false],
    [100, 3.4, true],
    [100, 3.41, false],
  ])('%d x %d mm, a little over the rating: %s', (width, t, can) => {
    expect(plan(toFold(width, t)).feasible).toBe(can);
  });

  test('what its own data say of shorter folds counts in place of that', () => {
    const machine: Machine = {
      ...BOX_PAN,
      capacities: [
        { material: 'steel', thickness: 3, length: 300 },
        { material: 'steel', thickness: 4, length: 100 },
      ],
    };
    expect(
      [
        [300, 3],
        [301, 3],
        [100, 4],
        [101, 4],
        [1250, 2],
        [50, 4.1],
      ].map(([w = 0, t = 0]) => plan(toFold(w, t), machine).feasible),
    ).toEqual([true, false, true, false, true, false]);
    expect(plan(toFold(101, 4), machine).blockedBy[0]?.reason).toBe(
      'the machine takes 3 mm of that sheet over 101 mm, by its own figures; this is 4 mm DC01',
    );
    // Figures of steel say nothing of stainless, which is derived.
    expect(plan(toFold(100, 2.1, '1.4301'), machine).feasible).toBe(false);
  });

  test('the shop file keeps them', () => {
    const [folder] = DEFAULT_SHOP.machines;
    const shop = {
      ...DEFAULT_SHOP,
      machines: [
        {
          ...BOX_PAN,
          ...folder,
          capacities: [
            { material: 'steel' as const, thickness: 3, length: 300 },
            { material: 'steel' as const, thickness: 2 },
          ],
        },
      ] as Machine[],
    };
    const read = readShop(writeShop(shopEntries(shop, {}), 'mine'));
    expect(read.ok && read.shop.machines[0]?.capacities).toEqual([
      { material: 'steel', thickness: 3, length: 300 },
      { material: 'steel', thickness: 2 },
    ]);
  });

  test('a built-in machine that was printed and read again has no figure measured', () => {
    const read = readShop(writeShop(shopEntries(DEFAULT_SHOP, {}), 'mine'));
    expect(read.ok && read.shop.machines.map((m) => m.overbendDeg)).toEqual(
      DEFAULT_SHOP.machines.map((m) => m.overbendDeg),
    );
  });

  test('a brake has a V for it, or not: under five thicknesses there is none', () => {
    expect([6.4, 6.41].map((t) => plan(toFold(200, t), PRESS_BRAKE).feasible)).toEqual([
      true,
      false,
    ]);
    expect(plan(toFold(200, 10), PRESS_BRAKE).blockedBy[0]?.reason).toBe(
      'its widest V of 32 is for sheet up to 6.4 mm; this is 10 mm',
    );
  });
});

describe('least strips on a folder', () => {
  // Rated for a flange of 25 mm at full capacity (guide to 4-foot box brakes); the leaf's
  // force at the flange's end is then the same for 25 (t / t0)^2 L / L0.
  test.each([
    [2000, 1.5, 24.9, false],
    [2000, 1.5, 25, true],
    [1000, 1.5, 12.4, false],
    [1000, 1.5, 12.6, true],
    // Thin and short: the machine's own 8 mm.
    [300, 1, 7.9, false],
    [300, 1, 8.1, true],
  ])('%d mm long, %d mm thick: a flange of %d mm, %s', (width, t, flange, can) => {
    const part = angle(80, flange, width, 90, t, t);
    const fold = { ...toFold(width, t), part, flat: flatten(part, { id: 'k', k: 0.42 }) };
    // Where the leaf cannot push the flange, the flange is held, if the clamp has its land on it.
    expect(plan(fold, STRAIGHT).steps[0]?.clampedSide === 'leg A').toBe(can);
  });

  // From the hinge to where the nose rests it is (r + t) tan(A/2); the land of 10 mm begins there.
  test('the land of the clamp is counted from the nose, and a flange reaches over its bend', () => {
    const strips = (angleDeg: number, thicknessMm: number, insideRadiusMm: number) =>
      folderRules(BOX_PAN, angleDeg, { thicknessMm, insideRadiusMm, angleDeg, noseRadiusMm: 0 })
        .stripMm;
    expect(strips(90, 1, 1)).toEqual([expect.closeTo(12, 9), 8]);
    expect(strips(90, 3, 4)).toEqual([expect.closeTo(17, 9), expect.closeTo(13, 9)]);
    expect(strips(120, 2, 2)[0]).toBeCloseTo(10 + 4 * Math.sqrt(3), 9);
  });
});

describe('the way out', () => {
  const PRESS = 'have it pressed where a brake takes it (--fold-at service)';

  test('pressed, or slit and welded, where slots have room and the rest can be folded', () => {
    const fold = toFold(200, 10);
    expect(plan(fold).blockedBy[0]?.suggestion).toBe(
      `${PRESS}; or slit it (slitAt A), fold it by hand and weld it up`,
    );
    // So slit it is folded.
    const slit = {
      ...fold.part,
      folds: fold.part.folds.map((f) => ({
        ...f,
        slots: { longestMm: 50, landMm: 20, widthMm: 2 },
      })),
    };
    const flat = flatten(slit, { id: 'k', k: 0.42 });
    expect(flat.findings).toEqual([]);
    expect(plan({ ...fold, part: slit, flat })).toMatchObject({
      feasible: true,
      steps: [{ bend: 'A', note: expect.stringContaining('by hand along its slots') as string }],
    });
    // Lands of two thicknesses at both ends leave no slot in 38 mm.
    expect(plan(toFold(38, 10)).blockedBy[0]?.suggestion).toBe(
      `${PRESS}; or weld it there in place of a bend (weldAt A)`,
    );
  });

  test('a machine of the shop that takes it is named, one that is too weak as well is not', () => {
    const fold = toFold(200, 5);
    const weak = planOnShop(fold, [BOX_PAN, STRAIGHT]);
    if (weak === undefined) throw new Error('an angle has a fold');
    expect(
      withSuggestions(fold, weak, [BOX_PAN, STRAIGHT])
        .blockedBy.map((b) => b.suggestion)
        .join(),
    ).not.toMatch(/straight folder|shorter/);
    expect(
      withSuggestions(fold, weak, [BOX_PAN, STRAIGHT, PRESS_BRAKE]).blockedBy[0]?.suggestion,
    ).toMatch(/^fold it on small press brake.*; or have it pressed/);
    expect(planOnShop(fold, [BOX_PAN, STRAIGHT, PRESS_BRAKE])?.plan.machine).toBe(PRESS_BRAKE.id);
  });

  test.each([
    ['here', 'stop'],
    ['auto', 'warn'],
    ['service', undefined],
  ] as const)('--fold-at %s', async (foldAt, severity) => {
    const made = makeParts(
      await loadFamily('bracket-angle'),
      { legA: 100, legB: 80, width: 38, thickness: 10 },
      {
        cutOnly: false,
        dxfVersion: 'r2000',
        foldAt,
        shop: { ...DEFAULT_SHOP, machines: [BOX_PAN, STRAIGHT] },
      },
    );
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    const [part] = made.parts;
    const told = part?.result.findings.find((f) => f.rule === 'no-fold-order');
    expect([told?.severity, part?.files().length, part?.result.foldPlan?.steps]).toEqual([
      severity,
      severity === 'stop' ? 0 : fileNames('').length,
      severity === undefined ? undefined : [],
    ]);
    if (told !== undefined)
      expect(told.message).toMatch(
        /10 mm S235JR is more than the machine takes, however short the fold.*What helps: have it pressed/,
      );
  });
});
