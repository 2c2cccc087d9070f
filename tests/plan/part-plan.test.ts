import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import { STRAIGHT } from '../../src/data/machines/straight.ts';
import { findMaterial } from '../../src/data/materials.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import type { Machine } from '../../src/model/machine.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import type { Part } from '../../src/model/part.ts';
import { planPart } from '../../src/plan/of-part/part-plan.ts';
import { middle } from '../../src/geometry/vec2.ts';
import { planFindings, planOnShop } from '../../src/plan/of-part/shop-plan.ts';
import { make } from '../helpers/check-template.ts';
import { angle } from '../helpers/parts.ts';
import type { FoldPlan } from '../../src/contract/fold-plan.ts';
import type { PartToFold } from '../../src/plan/of-part/plan-steps.ts';

const sheet = (id: string) => {
  const found = findMaterial(id);
  if (!found.ok) throw new Error(found.reason);
  return found.value;
};

const toFold = (part: Part, material = 'dc01'): PartToFold => ({
  part,
  flat: flatten(part, { id: 'k', k: 0.42 }),
  material: sheet(material),
  bends: [],
});

const family = async (name: string, inputs: Record<string, unknown>): Promise<PartToFold> => {
  const [made] = await make(name, inputs);
  if (made?.part === undefined) throw new Error(JSON.stringify(made?.result.findings));
  return toFold(made.part, made.result.material.id);
};

const plan = (fold: PartToFold, machine: Machine = BOX_PAN): FoldPlan =>
  planPart(fold, machine).plan;
const order = (p: FoldPlan): string[] => p.steps.map((s) => s.bend);

const HAT = { footA: 20, footB: 20, width: 100, material: 'dc01', thickness: 1.5, radius: 1.5 };

describe('known answers', () => {
  test('a wide, low hat can be folded with a folder; a deep and narrow one leaves no room for the fingers', async () => {
    expect(plan(await family('bracket-hat', { ...HAT, crown: 200, height: 40 })).feasible).toBe(
      true,
    );
    // FC02 of the worked cases: between sides 90 high and 40 apart the fingers, 50 deep, have no
    // place.
    const deep = plan(await family('bracket-hat', { ...HAT, crown: 40, height: 90 }));
    expect(deep.feasible).toBe(false);
    expect(deep.steps).toEqual([]);
    // Its two upper folds are enough to prove it: B and C, whichever comes first.
    expect(deep.blockEachOther).toEqual(['B', 'C']);
    expect(deep.blockedBy.map((b) => b.reason).join('; ')).toMatch(
      /side [AB] .*(finger space|upper beam)/,
    );
    expect(
      deep.blockedBy.every((b) => b.touches === null || /side|foot|crown/.test(b.touches)),
    ).toBe(true);
  });

  test('return lips of a tray are folded before the sides that carry them, all with a finger folder, none with a beam of one piece', async () => {
    const tray = await family('tray', {
      length: 300,
      depth: 200,
      height: 50,
      lipLeft: 'in',
      lipRight: 'in',
      lipFront: 'in',
      lipBack: 'in',
      lipDepth: 15,
      corner: 'open',
      material: 'dc01',
      thickness: 1.5,
    });
    const steps = order(plan(tray));
    expect(steps).toHaveLength(8);
    for (const [side, lip] of [
      ['A', 'E'],
      ['B', 'F'],
      ['C', 'G'],
      ['D', 'H'],
    ] as const)
      expect(steps.indexOf(lip), side).toBeLessThan(steps.indexOf(side));
    // Rule R01: a box cannot be finished on a clamp beam of one piece.
    expect(plan(tray, STRAIGHT).feasible).toBe(false);
  });

  test('an angle is folded at once, with the longer leg held; the other hand just so', () => {
    for (const part of [
      angle(80, 30, 100, 90, 1.5, 1.5),
      mirrorPart(angle(80, 30, 100, 90, 1.5, 1.5)),
    ]) {
      const [step, ...more] = plan(toFold(part)).steps;
      expect(more).toEqual([]);
      expect(step).toMatchObject({
        bend: 'A',
        clampedSide: 'leg A',
        flip: false,
        turnDeg: 0,
        from: 'the free edge of leg B',
        note: null,
      });
      // A sharp nose is assumed: the tangent line itself, and set back by t + r (K2 of
      // tests/published/folding.json).
      expect(step?.sightLineMm).toBeCloseTo(30.346, 3);
      expect(step?.nose).toEqual({ radiusMm: 0, gapMm: expect.closeTo(3, 9), basis: 'assumed' });
      // DC01 at r = t springs back by 0.99 (Tabellenbuch Metall).
      expect(step?.stopAtDeg).toBeCloseTo(90 / 0.99, 6);
      expect(step?.fingersMm.reduce((sum, w) => sum + w, 0)).toBeGreaterThanOrEqual(100 - 2 * 15);
    }
    expect(plan(toFold(angle(80, 30, 100, 90, 1.5, 1.5, 'down'))).steps[0]?.flip).toBe(true);
  });

  test('a duct that closes on itself cannot be folded in one piece, and says what stands in the way', async () => {
    const duct = await family('duct-box', {
      width: 200,
      height: 120,
      endWidth: 150,
      endHeight: 100,
      length: 200,
      lip: 20,
      blanks: 'whole',
      material: '5754-h111',
      thickness: 1.5,
    });
    for (const machine of [BOX_PAN, PRESS_BRAKE]) {
      const found = plan(duct, machine);
      expect(found.feasible).toBe(false);
      for (const { reason } of found.blockedBy)
        expect(reason).toMatch(/bed|beam|leaf|finger|ram|punch|die|mm of|swings into/);
    }
  });
});

// What a person at a finger folder asks first about a deep box (rule R06 of
// tests/published/folding.json), of the machine that boxes are folded on.
test('a tray deeper than the fingers is refused for its depth, on the finger folder', async () => {
  const tray = await family('tray', {
    length: 300,
    depth: 200,
    height: 130,
    corner: 'open',
    material: 'dc01',
    thickness: 1.5,
  });
  for (const machines of [
    [BOX_PAN, STRAIGHT],
    [STRAIGHT, BOX_PAN],
  ]) {
    const found = planOnShop(tray, machines)?.plan;
    expect(found?.machine).toBe(machines[0]?.id);
    if (found?.machine === BOX_PAN.id)
      expect(found.blockedBy[0]?.reason).toMatch(
        /^back .* upper beam at about 14 deg: its depth of 130 mm is more than the 100 mm of the fingers$/,
      );
  }
});

// Laid down flat, what is swung lies a deduction nearer to the hinge than where its turning about
// it begins: at r 8, t 2 and K 0.42, 2 x 10 - pi / 2 (8 + 0.42 x 2) = 6.1. The web of a zed of
// offset 22.5 hangs its flange so far into a leaf that is 20 thick; one of offset 35 hangs it clear
// of that.
test.each([
  [22.5, false],
  [35, true],
])(
  'a flange that hangs %d in front of the fold when the sheet is laid down: it can be folded so, %s',
  async (offset, isClear) => {
    const zed = await family('bracket-zed', {
      flangeA: 60,
      offset,
      flangeB: 30,
      width: 100,
      material: 'dc01',
      thickness: 2,
      radius: 8,
    });
    const { net, strokes, isClear: clear } = planPart(zed, BOX_PAN).answer.lattice;
    const [a, b] = ['A', 'B'].map((id) => net.folds.findIndex((f) => f.id === id)) as [
      number,
      number,
    ];
    const last = strokes.findIndex(({ folds }) => folds.length === 1 && folds[0] === a);
    const held = net.folds[a]?.panels.findIndex((p) => net.panels[p]?.id === 'flange A') as 0 | 1;
    expect(clear(last, 1 << b, held)).toBe(isClear);
  },
);

describe('what the machine itself sets', () => {
  test.each([
    // 2 mm over 1250; 2.5 mm: 1250 (2 / 2.5)^2 = 800 (worked with rule R10), and with fingers 0.71
    // of the thickness (R11): 800 x 0.71^2 = 403; 1.42 mm over all of it; longer than the machine,
    // never.
    [403, 2.5, 'dc01', true],
    [404, 2.5, 'dc01', false],
    [1250, 1.42, 'dc01', true],
    [1250, 1.43, 'dc01', false],
    [1251, 1, 'dc01', false],
    // Stainless: four gauges less (rule R12) and two for the fingers, 0.852 mm at full length.
    [1250, 0.85, '1.4301', true],
    [1250, 0.86, '1.4301', false],
  ])('a fold of %d mm in %d mm %s', (width, t, material, can) => {
    const found = plan(toFold(angle(80, 60, width, 90, t, t), material));
    expect(found.feasible).toBe(can);
    if (!can) expect(found.blockedBy[0]?.reason).toMatch(/mm (at most|long, the machine)/);
  });

  test('a hem is swung to 120 degrees and pressed flat; a steep bend that is none is beyond it', () => {
    const hem = plan(toFold(angle(80, 20, 100, 180, 0.5, 1)));
    expect(hem.steps).toMatchObject([
      { stopAtDeg: 120, note: expect.stringContaining('press it flat') as string },
    ]);
    const steep = plan(toFold(angle(80, 20, 100, 150, 1, 1)));
    expect([steep.feasible, steep.blockedBy[0]?.reason]).toEqual([
      false,
      "150 deg is more than the machine's 135 deg",
    ]);
  });

  test('slotted folds are left to the hands, after everything else', () => {
    const part = angle(200, 80, 100, 20, 6, 6);
    const slotted = {
      ...part,
      folds: part.folds.map((f) => ({ ...f, slots: { longestMm: 40, landMm: 12, widthMm: 2 } })),
    };
    expect(plan(toFold(slotted)).steps).toMatchObject([
      { bend: 'A', sightLineMm: null, note: expect.stringContaining('weld') as string },
    ]);
  });

  test('a press brake is told its force: 1.46 Rm t^2 / V over the length', () => {
    const [step] = plan(toFold(angle(80, 40, 500, 90, 2, 2)), PRESS_BRAKE).steps;
    // DC01 up to 410 MPa, V 12: 1.46 * 410 * 4 / 12 * 0.5 = 99.8 kN.
    expect(step?.note).toContain('about 100 kN over a V of 12');
  });
});

describe('what the shop file says of its machines', () => {
  const measured = <T>(value: T) =>
    ({ value, basis: 'measured', source: 'the shop file' }) as const;
  const bracket = toFold(angle(80, 30, 100, 90, 1.5, 1.5));

  test.each([
    // The tangent line of the held side is 30.346 from the free edge; the mark lies one nose radius
    // nearer.
    [[0], 30.346, /nose nearest to radius 1.5 has 0/],
    [[0, 1, 3], 29.346, /has 1:/],
    [[0, 1.5], 28.846, null],
    [[1.45], 28.896, null],
  ])('noses of radius %j', (radii, mark, note) => {
    const [step] = plan(bracket, { ...BOX_PAN, noseRadiiMm: measured(radii) }).steps;
    expect(step?.sightLineMm).toBeCloseTo(mark, 3);
    if (note === null) expect(step?.note).toBeNull();
    else expect(step?.note).toMatch(note);
  });

  // A side of 40 goes 40 sin 5 = 3.5 mm past its place, and the corner of the tray leaves half a
  // millimetre.
  test('its own overbend counts for a part; that of a built-in machine is a rule of thumb', async () => {
    const tray = await family('tray', {
      length: 300,
      depth: 200,
      height: 40,
      corner: 'butt',
      material: '5754-h111',
      thickness: 1.5,
    });
    const with5 = { ...BOX_PAN, overbendDeg: measured(5) };
    const [own, builtIn] = [plan(tray, with5), plan(tray)];
    expect(own.feasible).toBe(false);
    expect(own.blockedBy[0]?.reason).toMatch(/swings into .* at about 9\d deg/);
    expect(builtIn.feasible).toBe(true);
    // The stop goes by what springs back, whatever room the swing must have.
    expect(plan(bracket, with5).steps[0]?.stopAtDeg).toBeCloseTo(90 / 0.99, 6);
  });

  // DC01 at r = t stays by 0.99 of its stop: 133.65 deg is a stop at 135.
  test.each([
    [133.6, true],
    [134, false],
  ])('%d deg springs back from the 135 that the machine goes to: %s', (deg, can) => {
    const found = plan(toFold(angle(80, 22, 100, deg, 1, 1)));
    expect(found.feasible).toBe(can);
    if (!can)
      expect(found.blockedBy[0]?.reason).toBe(
        '134 deg takes a stop at 135.4 deg, which springs back; the machine goes to 135 deg',
      );
  });

  test('its own capacity for a material counts before the derived one', () => {
    const stainless = toFold(angle(80, 60, 1200, 90, 1.5, 1.5), '1.4301');
    expect(plan(stainless).feasible).toBe(false);
    expect(
      plan(stainless, { ...BOX_PAN, capacities: [{ material: 'stainless', thickness: 1.5 }] })
        .feasible,
    ).toBe(true);
    expect(
      plan(stainless, { ...BOX_PAN, capacities: [{ material: 'aluminium', thickness: 3 }] })
        .feasible,
    ).toBe(false);
  });

  test('a brake takes the V that is usual for the sheet, 6 t up to 2.5 mm and 8 t over it, and must be strong enough for it', () => {
    const noteOf = (t: number, change = {}) =>
      plan(toFold(angle(80, 60, 300, 90, (5 * (t <= 2.5 ? 6 : 8) * t) / 32, t)), {
        ...PRESS_BRAKE,
        ...change,
      }).steps[0]?.note;
    expect([1, 2, 3, 4].map((t) => /V of (\d+)/.exec(noteOf(t) ?? '')?.[1])).toEqual([
      '6',
      '12',
      '25',
      '32',
    ]);
    // DC01 up to 410 MPa, 2 mm, V 12: 1.46 * 410 * 4 / 12 = 199.5 kN a metre.
    const two = toFold(angle(80, 60, 300, 90, 2, 2));
    expect(plan(two, { ...PRESS_BRAKE, forcePerMetreKn: measured(200) }).feasible).toBe(true);
    const weak = plan(two, { ...PRESS_BRAKE, forcePerMetreKn: measured(199) });
    expect([weak.feasible, weak.blockedBy[0]?.reason]).toEqual([
      false,
      'it takes 200 kN a metre over a V of 12, the machine presses 199',
    ]);
  });

  test('a radius that the V does not give is said so: 5 V / 32', () => {
    expect(plan(toFold(angle(80, 60, 300, 90, 5, 2)), PRESS_BRAKE).steps[0]?.note).toContain(
      'this V gives a radius of about 1.9 inside, not 5',
    );
    expect(plan(toFold(angle(80, 60, 300, 90, 2, 2)), PRESS_BRAKE).steps[0]?.note).not.toContain(
      'gives a radius',
    );
  });
});

describe('what would help is tried', () => {
  test('another machine of the shop is taken where the first cannot', async () => {
    const hat = await family('bracket-hat', { ...HAT, crown: 50, height: 30 });
    expect(plan(hat).feasible).toBe(false);
    expect(planOnShop(hat, [BOX_PAN, PRESS_BRAKE])?.plan).toMatchObject({
      machine: PRESS_BRAKE.id,
      feasible: true,
    });
    expect(planOnShop(hat, [])).toBeUndefined();
    expect(
      planOnShop(
        toFold({
          ...angle(9, 9, 9, 90, 1, 1),
          panels: angle(60, 9, 9, 90, 1, 1).panels.slice(0, 1),
          folds: [],
        }),
        [BOX_PAN],
      ),
    ).toBeUndefined();
  });
});

test('what the plan means for making the part: a stop here, a warning otherwise, nothing where it can be folded', async () => {
  const hat = await family('bracket-hat', { ...HAT, crown: 40, height: 90 });
  const deep = plan(hat);
  // Where the fold lies that cannot be made, and how far it gets.
  const [blocked] = deep.blockedBy;
  const bend = hat.flat.bends.find(({ id }) => id === blocked?.bend);
  if (blocked === undefined || bend === undefined) throw new Error('not blocked at a fold');
  const stopAt = (atDeg: number | null) =>
    planFindings({ ...deep, blockedBy: [{ ...blocked, atDeg }] }, 'here', hat.flat.bends)[0];
  expect(stopAt(null)?.at).toEqual(middle(...bend.centreLine));
  expect(stopAt(null)?.measured).toBeUndefined();
  expect([stopAt(15)?.measured, stopAt(15)?.limit]).toEqual([
    { value: 15, unit: 'deg' },
    { atLeast: bend.angleDeg, unit: 'deg' },
  ]);
  expect(planFindings(deep, 'here').map((f) => [f.rule, f.severity])).toEqual([
    ['no-fold-order', 'stop'],
  ]);
  expect(planFindings(deep, 'auto').map((f) => [f.rule, f.severity])).toEqual([
    ['no-fold-order', 'warn'],
  ]);
  expect(planFindings(plan(toFold(angle(80, 30, 100, 90, 1.5, 1.5))), 'here')).toEqual([]);
  expect(planFindings(undefined, 'here')).toEqual([]);
  expect(
    planFindings({ ...deep, feasible: null, blockedBy: [] }, 'here').map((f) => f.severity),
  ).toEqual(['note']);
});
