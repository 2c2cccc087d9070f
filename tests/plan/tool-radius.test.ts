import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import type { Machine } from '../../src/model/machine.ts';
import type { ShopBend } from '../../src/model/shop.ts';
import { givenRadius } from '../../src/plan/of-part/given-radius.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { lostMm } from '../helpers/folded-strips.ts';

const measured = <T>(value: T) => ({ value, basis: 'measured', source: 'the shop file' }) as const;
const noses = (...radii: number[]): Machine => ({ ...BOX_PAN, noseRadiiMm: measured(radii) });

const findingsOf = async (
  family: string,
  inputs: Record<string, unknown>,
  machine: Machine,
  bends: readonly ShopBend[] = [],
) => {
  const made = makeParts(await loadFamily(family), inputs, {
    cutOnly: false,
    dxfVersion: 'r2000',
    shop: { ...DEFAULT_SHOP, machines: [machine], bends },
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const [part] = made.parts;
  expect(part?.result.foldPlan?.feasible).toBe(true);
  return {
    told:
      part?.result.findings.filter((f) => f.rule === 'radius-not-given').map((f) => f.message) ??
      [],
    note: part?.result.foldPlan?.steps[0]?.note ?? '',
  };
};

const CHANNEL = {
  flangeA: 40,
  web: 120,
  flangeB: 40,
  width: 100,
  material: 'dc01',
  rule: 'k:0.42',
};

describe('the radius that a tool gives', () => {
  test.each([
    // A nose, and a set-back of up to a thickness more: setback = t + r - nose radius, 1 to 2 t
    // (published instructions).
    [noses(0), 2, 2, undefined],
    [noses(0), 2, 40, 2],
    [noses(0, 3), 2, 5, undefined],
    [noses(0, 3), 2, 40, 5],
    [noses(3), 1, 1, 3],
    // Not named: told only well above what a sharp one gives.
    [BOX_PAN, 2, 4, undefined],
    [BOX_PAN, 2, 4.1, 2],
    [BOX_PAN, 1.5, 40, 1.5],
    // 5 V / 32 over a V of 12.
    [PRESS_BRAKE, 2, 2, undefined],
    [PRESS_BRAKE, 2, 5, 1.875],
    [PRESS_BRAKE, 2, 0.5, 1.875],
  ] as const)('%#', (machine, t, asked, gives) => {
    expect(givenRadius(machine, t, asked)?.radiusMm).toBe(gives);
  });

  test('radius 7 on a sharp nose, with the length that it costs', async () => {
    const { told, note } = await findingsOf(
      'bracket-angle',
      {
        legA: 120,
        legB: 100,
        width: 80,
        material: 'dc01',
        thickness: 1.5,
        radius: 7,
        rule: 'k:0.42',
      },
      BOX_PAN,
    );
    const [asked, given] = [7, 1.5].map((r) => lostMm(90, { k: 0.42, r, t: 1.5 })) as [
      number,
      number,
    ];
    expect(told).toEqual([
      expect.stringMatching(
        `Fold A: cut for an inside radius of 7, .* a sharp nose, set back as far as usual gives about 1.5. .*fold A comes out ${(asked - given).toFixed(2)} mm short`,
      ),
    ]);
    expect(note).toMatch(/gives a radius of about 1\.5 inside, not 7/);
  });

  /**
   * On 4 mm over a V of 32: radius 5. BD = 2 (r + 4) - pi / 2 (r + 1.68); from 10 to 5 it falls by
   * 10 - 2.5 pi = 2.146.
   */
  test('cut for radius 10, a V that gives 5: each fold and the whole blank', async () => {
    const { told } = await findingsOf(
      'bracket-channel',
      { ...CHANNEL, thickness: 4, radius: 10 },
      PRESS_BRAKE,
    );
    expect(told).toEqual([
      expect.stringContaining(
        'Folds A, B: cut for an inside radius of 10, but on pressbrake-1250 its V of 32 gives about 5. Folded there, fold A comes out 2.15 mm short over its two legs, and the blank is 4.29 mm too short for all of them. Give radius 5, or another die.',
      ),
    ]);
    expect(
      (await findingsOf('bracket-channel', { ...CHANNEL, thickness: 4, radius: 5 }, PRESS_BRAKE))
        .told,
    ).toEqual([]);
  });

  test('the blank cut for the given radius is as much longer as it says', async () => {
    const blank = async (radius: number) => {
      const made = makeParts(
        await loadFamily('bracket-channel'),
        { ...CHANNEL, thickness: 4, radius, rule: 'din6935' },
        { cutOnly: false, dxfVersion: 'r2000', shop: { ...DEFAULT_SHOP, machines: [PRESS_BRAKE] } },
      );
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      return made.parts[0]?.result;
    };
    const [cut, right] = [await blank(10), await blank(5)];
    const message = cut?.findings.find((f) => f.rule === 'radius-not-given')?.message ?? '';
    expect(Number(/the blank is ([\d.]+) mm too short/.exec(message)?.[1])).toBeCloseTo(
      (right?.blank?.heightMm ?? NaN) - (cut?.blank?.heightMm ?? NaN),
      1,
    );
  });

  test("bends by the shop's own are as they were measured; hems are pressed, bows bent about a former", async () => {
    const own: ShopBend = {
      material: 'dc01',
      machine: 'folder',
      tool: 'bar',
      thickness: 1.5,
      radius: 12,
      k: 0.45,
      kError: 0.02,
      radiusError: 0.2,
      strips: 8,
      angles: { from: 45, to: 120 },
    };
    expect(
      (
        await findingsOf(
          'bracket-channel',
          { ...CHANNEL, thickness: 1.5, rule: 'measured' },
          BOX_PAN,
          [own],
        )
      ).told,
    ).toEqual([]);
    const strap = {
      over: 'round',
      across: 300,
      height: 320,
      boltCentres: 370,
      width: 40,
      material: 'dc01',
      thickness: 1.5,
      radius: 1.6,
    };
    expect((await findingsOf('strap', strap, BOX_PAN)).told).toEqual([]);
  });
});

/**
 * From the free edge of the leg: 40 - 4.5 + pi / 2 (3 + 0.42 x 1.5) = 41.202 to the tangent line
 * that is clamped, less the nose.
 */
test.each([
  [undefined, 0],
  [1.5, 1.5],
])(
  'the mark of a part by the own bends goes by the nose of their strips: %s',
  async (noseRadius, less) => {
    const own: ShopBend = {
      material: 'dc01',
      machine: 'folder',
      tool: 'nose',
      noseRadius,
      thickness: 1.5,
      radius: 3,
      k: 0.42,
      kError: 0.02,
      radiusError: 0.2,
      strips: 8,
      angles: { from: 45, to: 120 },
    };
    const made = makeParts(
      await loadFamily('bracket-angle'),
      { legA: 80, legB: 40, width: 100, material: 'dc01', thickness: 1.5, rule: 'measured' },
      {
        cutOnly: false,
        dxfVersion: 'r2000',
        shop: { ...DEFAULT_SHOP, machines: [BOX_PAN], bends: [own] },
      },
    );
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    expect(made.parts[0]?.result.foldPlan?.steps[0]).toMatchObject({
      from: 'the free edge of leg B',
      sightLineMm: expect.closeTo(41.202 - less, 3) as number,
    });
  },
);

test('a bow is no fold: it is bent by hand round a former, after all folds', async () => {
  const made = makeParts(
    await loadFamily('strap'),
    {
      over: 'round',
      across: 300,
      height: 320,
      boltCentres: 370,
      width: 40,
      material: 'dc01',
      thickness: 1.5,
    },
    { cutOnly: false, dxfVersion: 'r2000', shop: { ...DEFAULT_SHOP, machines: [BOX_PAN] } },
  );
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const steps = made.parts[0]?.result.foldPlan?.steps ?? [];
  expect(steps.map((s) => s.bend).toSorted()).toEqual(['A', 'B', 'C']);
  expect(steps.at(-1)).toMatchObject({
    bend: 'B',
    stopAtDeg: 180,
    fingersMm: [],
    note: expect.stringMatching(
      /^by hand round a pipe, bar or former of radius 153, or in rolls, or bumped in 36 hits of 5 deg, 13\.4 mm apart/,
    ) as string,
  });
});

describe('round a pipe', () => {
  const stepsOf = async (
    family: string,
    inputs: Record<string, unknown>,
    machine: Machine = BOX_PAN,
  ) => {
    const made = makeParts(await loadFamily(family), inputs, {
      cutOnly: false,
      dxfVersion: 'r2000',
      shop: { ...DEFAULT_SHOP, machines: [machine] },
    });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    const [part] = made.parts;
    return { plan: part?.result.foldPlan, findings: part?.result.findings ?? [] };
  };

  // A radius of 7.5 in sheet of 2 is narrow enough for an open hem, but a strap is laid round what
  // it holds: it is no hem, and nobody presses it flat.
  test('a strap over a pipe of 15 mm', async () => {
    const { plan } = await stepsOf('strap', {
      over: 'round',
      across: 15,
      height: 30,
      rubber: 0,
      boltCentres: 70,
      material: 'dc01',
      thickness: 2,
    });
    expect(plan?.feasible).toBe(true);
    expect(plan?.steps.at(-1)).toMatchObject({
      bend: 'B',
      nose: null,
      note: expect.stringMatching(/^by hand round a pipe, bar or former of radius 7\.5/) as string,
    });
  });

  const SADDLE = {
    outline: '0,0; 300,0; 300,40; 0,40',
    material: 'dc01',
    thickness: 2,
    rule: 'k:0.5',
  };

  // Lines of 3 mm apart or more, 1.5 thicknesses: (30 + 1) A / 3 of them.
  test.each([
    [60, 10],
    [90, 16],
    [150, 27],
  ])('a saddle of %d degrees over a pipe of 60 mm', async (deg, hits) => {
    const folds = `150,0 150,40 ${deg} up r30`;
    const { plan, findings } = await stepsOf('plate', { ...SADDLE, folds });
    expect(plan).toMatchObject({ feasible: true, steps: [{ bend: 'F1', fingersMm: [] }] });
    expect(findings.filter((f) => f.rule === 'radius-not-given')).toEqual([]);
    expect(findings.filter((f) => f.rule === 'radius-beyond-nose').map((f) => f.message)).toEqual([
      expect.stringContaining(`Bump it in ${hits} hits of `),
    ]);
  });

  test('with a nose of that radius in the shop it is a stroke of the folder', async () => {
    const { plan, findings } = await stepsOf(
      'plate',
      { ...SADDLE, folds: '150,0 150,40 60 up r30' },
      noses(0, 30),
    );
    expect(plan?.steps).toMatchObject([{ bend: 'F1', nose: { radiusMm: 30, basis: 'measured' } }]);
    expect(findings.map((f) => f.rule)).not.toContain('radius-beyond-nose');
  });

  test('a hem stays a hem', async () => {
    const { plan } = await stepsOf('plate', {
      ...SADDLE,
      rule: 'din6935',
      folds: '280,0 280,40 180 up r2',
    });
    expect(plan?.steps[0]?.note).toContain('press it flat');
  });
});
