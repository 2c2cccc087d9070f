import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';
import tubeBent from '../../templates/tube-bent/index.ts';
import { publishedFile } from '../helpers/published.ts';
import { MADE_TUBES } from '../helpers/make-contract.ts';
import { bentOf } from '../helpers/tubes-of-kind.ts';
import { describeInputs, inputsJsonSchema } from '../../src/forms/read.ts';
import type { Vec3 } from '../../src/geometry/vec3.ts';
import type { Shop } from '../../src/model/shop.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { walkedOffMm, walkedTube } from '../../src/tube/walk.ts';
import { makeFiles } from '../../src/use/make/make-files.ts';
import { makeInStages } from '../../src/use/make/make-in-stages.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { checkTemplate } from '../../src/use/check-template.ts';
import { planParts } from '../../src/use/plan/plan-parts.ts';

const HOOP = {
  points: '0,0,0; 0,900,0; 1000,900,0; 1000,0,0',
  diameter: 45,
  wall: 2.5,
  radius: 135,
};

const made = (inputs: Readonly<Record<string, unknown>>, shop?: Shop) => {
  const all = makeParts(tubeBent, inputs, shop === undefined ? {} : { shop });
  if (!all.ok) throw new Error(JSON.stringify(all.problems));
  return { ...all, tubes: bentOf(all.tubes) };
};
const one = (inputs: Readonly<Record<string, unknown>>, shop?: Shop) => {
  const { tubes, parts } = made(inputs, shop);
  const [tube] = tubes;
  if (tube === undefined) throw new Error(JSON.stringify(parts.map((p) => p.result.findings)));
  return tube;
};
const rules = (inputs: Readonly<Record<string, unknown>>, severity: string): string[] => {
  const { parts, tubes } = made(inputs);
  return [...parts, ...tubes].flatMap(({ result }) =>
    result.findings.filter((f) => f.severity === severity).map((f) => f.rule),
  );
};
const problems = (inputs: Readonly<Record<string, unknown>>): string[] => {
  const all = makeParts(tubeBent, inputs);
  return all.ok ? [] : all.problems.map(({ input }) => input);
};

test('it is a sound template, and its examples are made', () => {
  expect(checkTemplate(tubeBent)).toEqual([]);
  for (const { inputs } of tubeBent.examples) {
    const { tubes, parts } = made(inputs);
    expect(parts).toEqual([]);
    for (const { tube, result } of tubes) {
      expect(walkedOffMm(tube.points, walkedTube(tube.sheet).points)).toBeLessThan(1e-6);
      expect(result.findings.filter((f) => f.severity === 'stop')).toEqual([]);
    }
  }
});

test('nothing is asked about sheet', () => {
  const names = describeInputs(tubeBent).map(({ name }) => name);
  expect(names).toContain('wall');
  expect(
    names.filter((n) => ['thickness', 'rule', 'measure', 'cornerGap', 'relief'].includes(n)),
  ).toEqual([]);
  expect(
    describeInputs(tubeBent)
      .filter((i) => i.common)
      .map((i) => i.name),
  ).toEqual(['hand', 'rightDiffers', 'quantity', 'name']);
  expect(inputsJsonSchema(tubeBent)['required']).toEqual(['diameter', 'wall']);
});

describe('what programs read', () => {
  const { cases } = publishedFile<{
    readonly cases: readonly {
      readonly id: string;
      readonly inputs: { readonly points: readonly Vec3[]; readonly CLR: readonly number[] };
      readonly expected: {
        readonly rotation_deg: readonly number[];
        readonly bend_deg: readonly number[];
        readonly bend_start_from_first_end: readonly number[];
        readonly cut_length: number;
      };
    }[];
  }>('tube-bending');

  test.each(['lra-hoop', 'lra-hoop-4', 'lra-box3d'])('%s, as it is printed', (id) => {
    const { inputs, expected } = cases.find((c) => c.id === id) as (typeof cases)[number];
    const points = inputs.points.map((p) => p.join(',')).join('; ');
    const { tube } = one({ points, diameter: 26, wall: 2, radius: inputs.CLR[0] }).result;
    expect(tube).toEqual({
      cutLengthMm: expect.closeTo(expected.cut_length, 3),
      diameterMm: 26,
      wallMm: 2,
      bends: expected.bend_deg.map((angle, i) => ({
        angleDeg: expect.closeTo(angle, 3),
        rotateDeg: expect.closeTo(expected.rotation_deg[i] as number, 3),
        startMm: expect.closeTo(expected.bend_start_from_first_end[i] as number, 3),
        pullToDeg: expect.any(Number),
        radiusMm: inputs.CLR[0],
      })),
      endsMm: [inputs.points[0], inputs.points.at(-1)],
    });
    for (const bend of tube?.bends ?? []) expect(bend.pullToDeg).toBeGreaterThan(bend.angleDeg);
  });

  test('is what is stated, and the same from stages', async () => {
    const files = await makeFiles({ template: tubeBent, inputs: { ...HOOP, hand: 'both' } });
    if (!files.ok) throw new Error(JSON.stringify(files.problems));
    expect(() => MADE_TUBES.parse(JSON.parse(JSON.stringify(files.result)))).not.toThrow();
    expect(files.files.map(({ name }) => name)).toEqual(['tube-bent-L.svg', 'tube-bent-R.svg']);
    const { done, value } = makeInStages(tubeBent, HOOP).next();
    expect(done).toBe(true);
    expect(JSON.stringify(value)).toBe(JSON.stringify(makeParts(tubeBent, HOOP)));
  });

  test('a hoop by its sizes is the same as by its points', () => {
    const bySizes = one({ span: 1000, height: 922.5, diameter: 45, wall: 2.5, radius: 135 });
    expect(bySizes.result.tube?.bends).toEqual(one(HOOP).result.tube?.bends);
    const leaning = one({ span: 900, height: 700, lean: 6, diameter: 30, wall: 2, radius: 90 });
    expect(leaning.result.tube?.bends.map((b) => b.angleDeg)).toEqual([
      expect.closeTo(84, 9),
      expect.closeTo(84, 9),
    ]);
    expect(Math.max(...leaning.tube.points.map((p) => p[2]))).toBeCloseTo(700 - 15, 9);
  });

  test('the other hand has its rotations the other way, and everything else the same', () => {
    const points = '0,0,0; 420,35,-60; 700,260,40; 980,240,390; 1250,-60,420';
    const { tubes } = made({ points, diameter: 20, wall: 2, radius: 60, hand: 'both' });
    const [left, right] = tubes.map(({ result }) => result.tube);
    right?.bends.forEach((bend, i) => {
      const other = left?.bends[i];
      expect(bend.angleDeg).toBeCloseTo(other?.angleDeg ?? 0, 9);
      expect(bend.startMm).toBeCloseTo(other?.startMm ?? 0, 9);
      expect(bend.rotateDeg).toBeCloseTo(-(other?.rotateDeg ?? 0), 9);
    });
    expect(tubes.every(({ tube }) => tube.proofMm < 1e-6)).toBe(true);
  });
});

describe('the bender', () => {
  /** The hoop of `bend-sheet-hoop`, worked out in tests/published/tube-bending.json. */
  const SHOP: Shop = {
    ...DEFAULT_SHOP,
    benders: [
      {
        name: 'bench bender',
        formers: [
          { tube: 30, radius: 90 },
          { tube: 45, radius: 135, springback: { fixed: 1, share: 0.025 } },
        ],
        referenceMark: 20,
        clamp: 135,
        follower: 250,
        leastStraight: 0,
        mostAngle: 90,
        bends: 'clockwise',
      },
    ],
  };
  test('of the shop file gives radius, springback and mark', () => {
    const { radius: _, ...hoop } = HOOP;
    const { result } = one(hoop, SHOP);
    expect(result.tube?.bends.map((b) => [b.pullToDeg, b.radiusMm])).toEqual([
      [expect.closeTo(93.25, 9), expect.closeTo(139.875, 9)],
      [expect.closeTo(93.25, 9), expect.closeTo(139.875, 9)],
    ]);
    expect(result.tube?.cutLengthMm).toBeCloseTo(2679.9303, 3);
    expect(result.bendSheet?.steps.map((s) => s.markMm)).toEqual([
      expect.closeTo(740.125, 3),
      expect.closeTo(1680.0901, 3),
    ]);
    expect(result.bendSheet).toMatchObject({ bender: 'bench bender', springback: 'measured' });
    expect(result.findings.map((f) => f.rule)).toContain('tube-long-pull');
  });

  test('by another name than it has stops the tube', () => {
    const { parts } = made({ ...HOOP, bender: 'big one' }, SHOP);
    expect(parts[0]?.result.findings[0]).toMatchObject({
      rule: 'tube-no-bender',
      severity: 'stop',
    });
    expect(parts[0]?.result.findings[0]?.message).toContain('bench bender');
  });

  test('holds on to tube that is left on, and the check figures count it', () => {
    const short = {
      legs: '150; 90, 150',
      diameter: 25,
      wall: 2,
      radius: 75,
      clamp: 100,
      follower: 130,
    };
    const { result } = one(short);
    expect(result.bendSheet?.wasteMm).toEqual({
      lead: expect.closeTo(25, 9),
      tail: expect.closeTo(55, 9),
    });
    expect(result.bendSheet?.steps[0]?.checkMm).toBeCloseTo(Math.hypot(175, 205), 6);
    expect(result.tube?.bends[0]?.startMm).toBeCloseTo(100, 9);
  });

  test('an end that meets a face aslant is left longer by half the diameter times its tangent', () => {
    const { result } = one({ ...HOOP, leadFace: 45, tailTrim: 10 });
    expect(result.bendSheet?.wasteMm).toEqual({ lead: expect.closeTo(22.5, 9), tail: 10 });
  });

  test('is turned with the rotation of the plane, as seen from the free end', () => {
    const box = {
      points: '0,0,0; 300,0,0; 300,250,0; 300,250,400; 500,250,400',
      diameter: 25,
      wall: 2,
      radius: 80,
    };
    const { result } = one(box);
    expect(result.bendSheet?.steps.map(({ turnDeg }) => turnDeg)).toEqual([0, 90, 90]);
    const tail = one({ ...box, clamp: 0, follower: 0 }).result.bendSheet;
    expect(tail?.steps.map(({ clampAt }) => clampAt)).toEqual(['lead', 'lead', 'lead']);
  });
});

test('a tube that hangs lower than the bender stands is told, by the side on which it hangs', () => {
  // Bent up at its second bend by 90 degrees: 400 mm of it stand off the plane of the third bend.
  const box = {
    points: '0,0,0; 300,0,0; 300,250,0; 300,250,300',
    diameter: 25,
    wall: 2,
    radius: 80,
  };
  const shopOf = (bends: 'clockwise' | 'anticlockwise', height: number): Shop => ({
    ...DEFAULT_SHOP,
    benders: [
      {
        name: 'floor bender',
        formers: [{ tube: 25, radius: 80 }],
        referenceMark: 0,
        clamp: 0,
        follower: 0,
        leastStraight: 0,
        mostAngle: 180,
        bends,
        height,
      },
    ],
  });
  const told = (bends: 'clockwise' | 'anticlockwise', height: number): readonly string[] =>
    one(box, shopOf(bends, height))
      .result.findings.filter(({ rule }) => rule === 'tube-hits-floor')
      .map(({ message }) => message);
  // The first leg, 300 mm long, stands square off the plane of the second bend, to one side alone.
  const both = [told('clockwise', 200), told('anticlockwise', 200)];
  expect(both.map((all) => all.length).toSorted((a, b) => a - b)).toEqual([0, 1]);
  expect(both.flat()[0]).toContain('At bend 2 the tube hangs 313 mm below');
  // Looking from the free end towards the clamp the tube was turned clockwise by 90 degrees. What lay
  // to the right then hangs down, and a bender that bends clockwise had bent the leg to the right.
  expect(told('clockwise', 200)).toHaveLength(1);
  expect(told('clockwise', 320)).toEqual([]);
});

describe('what is told', () => {
  const COLD = { ...HOOP, clamp: 100, follower: 100, testBends: '20 = 18.2; 120 = 115.4' };
  test.each<[string, string, Readonly<Record<string, unknown>>]>([
    ['tube-tight-radius', 'warn', { radius: 120 }],
    ['tube-thin-wall', 'warn', { wall: 1 }],
    ['tube-stretch', 'warn', { material: '6060-t66' }],
    ['tube-temper-cracks', 'warn', { material: '6082-t6' }],
    ['caution-tube-annealing', 'note', { material: '6061-t6' }],
    ['tube-shallow-bend', 'warn', { points: '0,0,0; 1000,0,0; 2000,20,0' }],
    ['tube-short-straight', 'warn', { clamp: 760, follower: 760 }],
    ['tube-springback-guessed', 'note', { testBends: undefined }],
    ['tube-clamp-unknown', 'note', { clamp: undefined, follower: undefined }],
    ['tube-radius-opens', 'note', {}],
    ['tube-no-bend', 'note', { points: '0,0,0; 500,0,0; 1000,0,0; 1000,900,0' }],
  ])('%s', (rule, severity, change) => {
    expect(rules({ ...COLD, ...change }, severity)).toContain(rule);
    if (Object.keys(change).length > 0) expect(rules(COLD, severity)).not.toContain(rule);
  });

  test('bends that overlap, and by how much, with the radius that does', () => {
    const close = {
      points: '0,0,0; 400,0,0; 400,150,0; 800,150,0',
      diameter: 25,
      wall: 2,
      radius: 80,
    };
    const [finding] = made(close).parts[0]?.result.findings ?? [];
    expect(finding?.message).toContain('bends 1 and 2 overlap by 10 mm');
    expect(finding?.mends).toEqual([{ input: 'radius', atMost: 75 }]);
    expect(rules({ ...close, radius: 75 }, 'stop')).toEqual([]);
    const end = { points: '0,0,0; 50,0,0; 50,400,0', diameter: 25, wall: 2, radius: 75 };
    expect(made(end).parts[0]?.result.findings[0]?.message).toContain(
      'over the leading end by 25 mm',
    );
  });

  test.each<[string, Readonly<Record<string, unknown>>]>([
    ['tube-no-line', { points: undefined }],
    ['tube-no-line', { span: 900 }],
    ['tube-same-place', { points: '0,0,0; 0,0,0; 10,0,0' }],
    ['tube-turns-back', { points: '0,0,0; 500,0,0; 100,0,0' }],
    ['tube-wall-too-thick', { wall: 23 }],
    ['tube-radius-in-tube', { radius: 20 }],
    ['tube-hoop-too-narrow', { points: undefined, span: 300, height: 600, lean: 30 }],
    ['tube-hoop-too-narrow', { points: undefined, span: 300, height: 20 }],
  ])('%s stops it', (rule, change) => {
    expect(rules({ ...HOOP, ...change }, 'stop')).toEqual([rule]);
  });

  test.each<[string, Readonly<Record<string, unknown>>]>([
    ['radius', { radius: 0 }],
    ['wall', { wall: 0 }],
    ['wall', { wall: -2 }],
    ['diameter', { diameter: 'wide' }],
    ['points', { points: '0,0,0' }],
    ['points', { points: '0,0; 10,10' }],
    ['points', { points: '0,0,0; 1e9,0,0' }],
    ['legs', { points: undefined, legs: '400; 90' }],
    ['legs', { points: undefined, legs: '0; 90, 100' }],
    ['legs', { points: undefined, legs: '400; 90@1@2, 100' }],
    ['testBends', { testBends: '20 = 18' }],
    ['testBends', { testBends: '20 = 18.2; 21 = 19' }],
    ['testBends', { testBends: '20 = 25; 120 = 115' }],
    ['material', { material: 'cheese' }],
    ['thickness', { thickness: 2 }],
  ])('a wrong %s is a problem of that input', (input, change) => {
    expect(problems({ ...HOOP, ...change })).toEqual([input]);
  });

  test('a thousand bends are made, and a thousand and one refused', () => {
    const legs = (bends: number): string =>
      [
        '300',
        ...Array.from({ length: bends }, (_, i) => `${20 + (i % 60)}@${(i * 37) % 180}, 200`),
      ].join(';');
    const many = one({ legs: legs(1000), diameter: 10, wall: 1, radius: 40 });
    expect(many.result.tube?.bends).toHaveLength(1000);
    expect(many.tube.proofMm).toBeLessThan(1e-6);
    expect(problems({ legs: legs(1001), diameter: 10, wall: 1 })).toEqual(['legs']);
  });

  test('whatever is given, a tube is proved, stopped with a reason, or refused by its input', () => {
    const figure = fc.oneof(
      fc.integer({ min: -50, max: 900 }),
      fc.constantFrom('', 'wide', '2in', '1e400', '-0', '12;3'),
    );
    const mostly = (min: number, max: number) =>
      fc.oneof(
        { weight: 15, arbitrary: fc.integer({ min, max }) },
        { weight: 1, arbitrary: figure },
      );
    const place = mostly(-900, 900);
    const text = fc.array(fc.tuple(place, place, place), { maxLength: 5 });
    const turns = fc.array(fc.tuple(mostly(5, 90), mostly(-170, 170), mostly(150, 500)), {
      maxLength: 5,
    });
    let count = 0;
    const way = fc.oneof(
      fc.record({ points: text.map((all) => all.map((p) => p.join(',')).join('; ')) }),
      fc.record({
        legs: turns.map((all) => ['300', ...all.map(([a, r, l]) => `${a}@${r}, ${l}`)].join(';')),
      }),
      fc.record({ span: mostly(300, 900), height: mostly(200, 900), lean: mostly(-10, 20) }),
      fc.constant({ points: '0,0,0; 300,0,0', span: 300 }),
    );
    const rest = fc.record(
      {
        diameter: mostly(10, 60),
        wall: mostly(1, 4),
        radius: mostly(40, 120),
        clamp: mostly(0, 200),
        follower: mostly(0, 200),
        leadFace: mostly(0, 60),
        testBends: fc.constantFrom('20 = 18.2; 120 = 115.4', '20 = 18', '= ; =', '90 = 95; 20 = 1'),
        material: fc.constantFrom('e235', '6082-t6', '304', 'cheese'),
        hand: fc.constantFrom('left', 'right', 'both'),
      },
      { requiredKeys: ['diameter', 'wall'] },
    );
    const given = fc.tuple(way, rest).map(([line, tube]) => ({ ...line, ...tube }));
    fc.assert(
      fc.property(given, (inputs) => {
        const all = makeParts(tubeBent, inputs);
        if (!all.ok) expect(all.problems.length).toBeGreaterThan(0);
        else {
          expect(all.parts.length + all.tubes.length).toBeGreaterThan(0);
          for (const { result } of all.parts)
            expect(result.findings.some((f) => f.severity === 'stop')).toBe(true);
          count += all.tubes.length;
          for (const { tube } of bentOf(all.tubes)) {
            expect(tube.proofMm).toBeLessThan(1e-6);
            expect(Math.min(...tube.sheet.straightsMm)).toBeGreaterThan(-1e-6);
          }
        }
      }),
      { numRuns: fuzzRuns(3000) },
    );
    expect(count).toBeGreaterThan(shareOf(120));
  });

  test('folds are not planned: a tube has none', () => {
    const planned = planParts({ template: tubeBent, inputs: HOOP });
    expect(planned.ok ? [] : planned.problems.map((p) => p.input)).toEqual(['family']);
  });
});
