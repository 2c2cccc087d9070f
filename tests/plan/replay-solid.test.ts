import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import type { FlatPattern } from '../../src/model/flat.ts';
import type { Machine } from '../../src/model/machine.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import type { Part } from '../../src/model/part.ts';
import { CONTACT_GAP_MM } from '../../src/plan/machines/net.ts';
import type { PartPlan } from '../../src/plan/of-part/part-plan.ts';
import { type Reason, whyNot } from '../../src/plan/search/reasons.ts';
import { planOnShop } from '../../src/plan/of-part/shop-plan.ts';
import { FAMILIES } from '../../templates/index.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';
import { angle, fold, panel, part } from '../helpers/parts.ts';
import { material } from '../helpers/plate.ts';
import { TREES } from '../helpers/trees.ts';
import { type Contact, replaySolid } from './replay-solid.ts';
import { faultsOf, roomsOf } from './replay-solid-plan.ts';

type Inputs = Readonly<Record<string, unknown>>;

/** A blank with the plan that was made for it, or for its mirror image. */
interface Planned {
  readonly flat: FlatPattern;
  readonly plan: PartPlan;
  readonly isOtherHand: boolean;
}

/** The parts these inputs make that have a fold to plan; of several that are alike, the first. */
const planned = async (family: string, inputs: Inputs, machine: Machine): Promise<Planned[]> => {
  const made = makeParts(await loadFamily(family), inputs, {
    cutOnly: false,
    dxfVersion: 'r2000',
    shop: { ...DEFAULT_SHOP, machines: [machine] },
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const found = made.parts.flatMap(({ flat, plan, result }) =>
    flat === undefined || plan === undefined
      ? []
      : [{ flat, plan, isOtherHand: inputs['hand'] === 'both' && result.hand === 'right' }],
  );
  return found.filter(
    (one, i) =>
      found.findIndex(
        (other) => JSON.stringify(other.flat.outline) === JSON.stringify(one.flat.outline),
      ) === i,
  );
};

const onlyPlanned = async (family: string, inputs: Inputs, machine: Machine): Promise<Planned> => {
  const [first, ...more] = await planned(family, inputs, machine);
  if (first === undefined || more.length > 0) throw new Error(`not one part of ${family}`);
  return first;
};

const plannedPart = (made: Part, machine: Machine): Planned => {
  const flat = flatten(made, { id: 'k', k: 0.42 });
  const plan = planOnShop({ part: made, flat, material: material('dc01'), bends: [] }, [machine]);
  if (plan === undefined) throw new Error(`${made.name} has no fold`);
  return { flat, plan, isOtherHand: false };
};

const isFeasible = ({ plan }: Planned): boolean => plan.plan.feasible === true;
const faults = ({ flat, plan, isOtherHand }: Planned): string[] =>
  faultsOf(plan, flat, isOtherHand);

const BOTH = [BOX_PAN, PRESS_BRAKE] as const;

/**
 * Families whose examples are all flat, set by eye, or too much for either machine: a rest for a
 * heel that is not stands below.
 */
const WITHOUT: readonly string[] = ['ring', 'duct-transition', 'heel-rest'];
/** Examples that are too much for both take long to prove so. */
const TOO_MUCH: readonly unknown[] = ['grille-intake', 'chute-mouth', 'dust-duct', 'battery-tray'];

describe('the plans of every family’s examples', () => {
  test.each([...FAMILIES.keys()].filter((f) => !WITHOUT.includes(f)))('%s', async (family) => {
    let count = 0;
    for (const { inputs } of (await loadFamily(family)).examples.filter(
      (e) => !TOO_MUCH.includes(e.inputs['name']),
    )) {
      for (const machine of BOTH) {
        for (const found of (await planned(family, inputs, machine)).filter(isFeasible)) {
          count += 1;
          expect(faults(found), JSON.stringify(inputs)).toEqual([]);
        }
      }
    }
    expect(count).toBeGreaterThan(0);
  });
});

const HAT = {
  crown: 50,
  height: 30,
  footA: 20,
  footB: 20,
  width: 100,
  material: 'dc01',
  thickness: 1.5,
  radius: 1.5,
};

describe('parts that are hard to fold', () => {
  test.each([
    [
      'a rest for a heel, its lip behind',
      'heel-rest',
      {
        floorAngle: 6,
        width: 120,
        treadDepth: 75,
        lift: 12,
        lipPlace: 'rear',
        lipFold: 'double',
        flangeFront: 120,
        flangeRear: 30,
        cheeks: 'none',
        material: '5754-h22',
        thickness: 1,
        radius: 1,
      },
      PRESS_BRAKE,
    ],
    [
      'a tray with return lips all round',
      'tray',
      {
        length: 200,
        depth: 150,
        height: 50,
        lipLeft: 'in',
        lipRight: 'in',
        lipFront: 'in',
        lipBack: 'in',
        lipDepth: 15,
        corner: 'open',
        material: 'dc01',
        thickness: 1.5,
      },
      BOX_PAN,
    ],
    [
      'a hat with two folds made in two strokes',
      'bracket-hat',
      {
        ...HAT,
        crown: 26.5,
        height: 19.5,
        footA: 104.5,
        footB: 130,
        width: 54,
        material: '1.4301',
        thickness: 2,
        radius: 4,
        measure: 'inside',
      },
      PRESS_BRAKE,
    ],
    [
      'a plate folded up and down, aslant',
      'plate',
      {
        outline: '0,0; 140,0; 140,90; 0,90',
        folds: '-10,25 150,25 90 up; -10,55 150,62 60 down',
        material: 's235',
        thickness: 1.5,
      },
      BOX_PAN,
    ],
  ])('%s', async (_, family, inputs, machine) => {
    const found = await onlyPlanned(family, inputs, machine);
    expect(found.plan.plan).toMatchObject({ feasible: true });
    expect(faults(found)).toEqual([]);
  });

  const partial = part(
    [
      panel('web', rectangle(0, 0, 120, 70)),
      panel('tongue', rectangle(0, 0, 50, 30)),
      panel('ear', rectangle(0, 0, 70, 25)),
    ],
    [
      fold(
        'T',
        { panel: 'web', edge: 0, from: 30, to: 80 },
        { panel: 'tongue', edge: 0 },
        70,
        'down',
        2,
      ),
      fold('E', { panel: 'web', edge: 1 }, { panel: 'ear', edge: 0 }, 105, 'up', 2),
    ],
    { thicknessMm: 1.5 },
  );
  const hemmed = part(
    [
      panel('web', rectangle(0, 0, 90, 60)),
      panel('side', rectangle(0, 0, 90, 35)),
      panel('hem', rectangle(0, 0, 90, 10)),
    ],
    [
      fold('S', { panel: 'web', edge: 2 }, { panel: 'side', edge: 0 }, 90, 'up', 1),
      fold('H', { panel: 'side', edge: 2 }, { panel: 'hem', edge: 0 }, 180, 'down', 0.5),
    ],
    { thicknessMm: 1 },
  );
  const tree = (name: string): readonly [string, Part] => [
    name,
    TREES.find((t) => t.name === name)?.part as Part,
  ];

  test.each<readonly [string, Part]>([
    ['an angle of 47.5 degrees', angle(60, 40, 80, 47.5, 3, 2)],
    ['an angle of 133 degrees, down', angle(80, 40, 60, 133, 2, 1.5, 'down')],
    ['folds along a part of an edge, one up and one down', partial],
    ['a hem on a side, the other way', hemmed],
    tree('flange on a flange on a flange, changing direction'),
    tree('chamfer swallowed by two bends'),
  ])('%s, in either hand', (_, made) => {
    const found = [made, mirrorPart(made)]
      .flatMap((hand) => BOTH.map((machine) => plannedPart(hand, machine)))
      .filter(isFeasible);
    expect(found.length).toBeGreaterThanOrEqual(2);
    for (const one of found) expect(faults(one)).toEqual([]);
  });
});

const mm = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: 2 * min, max: 2 * max }).map((n) => n / 2);

const SHEET = {
  material: fc.constantFrom('dc01', '5754-h22', '1.4301'),
  thickness: fc.constantFrom(0.8, 1, 1.5, 2, 3),
  radius: fc.constantFrom(1, 2, 3, 8),
  measure: fc.constantFrom('outside', 'inside'),
  rule: fc.constantFrom('din6935', 'k:0.42', 'faa'),
  hand: fc.constantFrom('left', 'right', 'both'),
};
const bendAngle = fc.oneof(fc.constant(90), fc.integer({ min: 5, max: 130 }));
const lip = fc.constantFrom('none', 'none', 'in', 'out');

/**
 * Inputs of families whose parts have few folds, of sizes that machines of a small shop mostly
 * fold.
 */
const RANDOM: Readonly<Record<string, Readonly<Record<string, fc.Arbitrary<unknown>>>>> = {
  'bracket-angle': { legA: mm(25, 120), legB: mm(12, 80), width: mm(20, 120), bendAngle },
  'bracket-channel': {
    web: mm(40, 120),
    flangeA: mm(12, 80),
    flangeB: mm(12, 50),
    width: mm(20, 120),
    bendAngle,
  },
  'bracket-zed': {
    flangeA: mm(12, 80),
    offset: mm(20, 80),
    flangeB: mm(12, 80),
    width: mm(20, 120),
    bendAngle,
  },
  'bracket-hat': {
    crown: mm(50, 120),
    height: mm(20, 50),
    footA: mm(12, 60),
    footB: mm(12, 60),
    width: mm(20, 120),
    bendAngle,
  },
  'bracket-gusset': {
    base: mm(50, 120),
    upright: mm(50, 120),
    width: mm(40, 120),
    gussetDepth: mm(10, 40),
    gussetHeight: mm(10, 40),
    gussetSide: fc.constantFrom('left', 'right', 'both'),
  },
  tray: {
    length: mm(80, 200),
    depth: mm(80, 200),
    height: mm(15, 50),
    corner: fc.constantFrom('open', 'butt'),
    lipLeft: lip,
    lipRight: lip,
    lipDepth: mm(12, 20),
  },
  plate: {
    outline: fc.constantFrom(
      '0,0; 120,0; 120,80 r6; 0,80 r6',
      '0,0; 90,10; 140,0; 130,70; 60,100 arc; 0,70',
    ),
    folds: fc.constantFrom(
      '-10,35 150,40 90 up',
      '60,-10 50,120 30 down r4',
      '-10,25 150,25 90 up; -10,50 150,50 90 up',
      '-10,20 150,20 90 up; -10,45 150,50 60 down',
    ),
  },
};

describe('the plans of random parts', () => {
  test.each(Object.entries(RANDOM))('%s', async (family, sizes) => {
    const template = await loadFamily(family);
    expect(template.family).toBe(family);
    let count = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.record({ ...SHEET, ...sizes }),
        fc.constantFrom(...BOTH),
        async (inputs, machine) => {
          for (const found of (await planned(family, inputs, machine)).filter(isFeasible)) {
            count += 1;
            expect(faults(found)).toEqual([]);
          }
        },
      ),
      // Each takes as long as a hundred of other random tests.
      { numRuns: Math.ceil(fuzzRuns(600) / 100) },
    );
    expect(count).toBeGreaterThan(shareOf(0));
  });
});

const DC = { material: 'dc01', thickness: 1.5, radius: 1.5 };
const CHANNEL = { ...DC, flangeA: 110, web: 60, flangeB: 60, width: 100 };
const ZED = { ...DC, flangeA: 80, offset: 20, flangeB: 40, width: 100 };

interface Order {
  readonly into: string;
  readonly panel: string;
  readonly family: string;
  readonly inputs: Inputs;
  readonly machine: Machine;
  readonly after: readonly string[];
  readonly bend: string;
  readonly clamped: string;
}

const order = (
  into: string,
  panelId: string,
  [family, inputs, machine]: readonly [string, Inputs, Machine],
  [after, bend, clamped]: readonly [string, string, string],
): Order => ({
  into,
  panel: panelId,
  family,
  inputs,
  machine,
  after: after.split(' '),
  bend,
  clamped,
});

describe('what is in the way is found', () => {
  test.each([
    order('beam', 'flange A', ['bracket-channel', CHANNEL, BOX_PAN], ['A', 'B', 'web']),
    order('beam', 'flange A', ['bracket-channel', CHANNEL, BOX_PAN], ['A', 'B', 'flange B']),
    order(
      'fingers',
      'flange A',
      ['bracket-channel', { ...CHANNEL, flangeA: 60, web: 40 }, BOX_PAN],
      ['A', 'B', 'web'],
    ),
    order('bed', 'flange A', ['bracket-zed', ZED, BOX_PAN], ['A', 'B', 'web']),
    order('leaf', 'flange A', ['bracket-zed', ZED, BOX_PAN], ['A', 'B', 'flange B']),
    order('die', 'flange A', ['bracket-zed', ZED, PRESS_BRAKE], ['A', 'B', 'web']),
    order(
      'punch',
      'flange A',
      ['bracket-channel', { ...CHANNEL, flangeA: 60, web: 30 }, PRESS_BRAKE],
      ['A', 'B', 'web'],
    ),
    order(
      'ram',
      'flange A',
      ['bracket-channel', { ...CHANNEL, flangeA: 170, web: 165 }, PRESS_BRAKE],
      ['A', 'B', 'web'],
    ),
    order(
      'flange A',
      'flange B',
      ['bracket-channel', { ...CHANNEL, flangeA: 30, web: 20, bendAngle: 120 }, PRESS_BRAKE],
      ['A', 'B', 'web'],
    ),
  ])(
    '$family on $machine.id: $panel in the $into',
    async ({ into, panel: panelId, family, inputs, machine, after, bend, clamped }) => {
      const { flat, plan } = await onlyPlanned(family, inputs, machine);
      const [{ angleDeg, parent }] = flat.bends.filter((b) => b.id === bend) as [
        FlatPattern['bends'][number],
      ];
      const { contacts } = replaySolid(
        flat,
        plan.machine,
        [{ bends: [bend], clamped, stopAtDeg: angleDeg }],
        'about the hinge',
        after,
      );
      expect(contacts.filter((c) => c.isFault).map((c) => [c.what, c.into])).toContainEqual([
        panelId,
        into,
      ]);
      // The planner rules the same out.
      const { net, strokes } = plan.answer.lattice;
      const made = net.folds.reduce((bits, f, i) => bits | (after.includes(f.id) ? 1 << i : 0), 0);
      const stroke = strokes.find(
        (s) => s.folds.length === 1 && net.folds[s.folds[0] as number]?.id === bend,
      );
      expect(stroke?.isClear(made, parent === clamped ? 0 : 1)).toBe(false);
    },
  );

  test('a plan for a folder whose beam is higher', async () => {
    const { flat, plan } = await onlyPlanned(
      'bracket-channel',
      { ...CHANNEL, flangeA: 90, flangeB: 90, web: 100 },
      BOX_PAN,
    );
    expect([plan.plan.feasible, faultsOf(plan, flat)]).toEqual([true, []]);
    if (plan.machine.kind !== 'folder' || plan.machine.clamp.kind !== 'fingers')
      throw new Error('a folder with fingers');
    const { clamp } = plan.machine;
    const low: Machine = {
      ...plan.machine,
      clamp: { ...clamp, boxDepthMm: { ...clamp.boxDepthMm, value: 60 } },
    };
    expect(faultsOf({ ...plan, machine: low }, flat).join('\n')).toMatch(
      /flange [AB] [\d.]+ mm in beam/,
    );
  });

  test('tools that stand where a side does', async () => {
    const { flat, plan } = await onlyPlanned(
      'bracket-gusset',
      { ...DC, base: 70, upright: 90, width: 60, gussetDepth: 40, gussetHeight: 50 },
      BOX_PAN,
    );
    const stroke = { bends: ['A'], clamped: 'base', stopAtDeg: 90 };
    const within = (ends: number): Contact[] =>
      replaySolid(
        flat,
        plan.machine,
        [{ ...stroke, places: [{ from: -30 + ends, to: 30 - ends }] }],
        'about the hinge',
        ['B', 'C'],
      ).contacts.filter((c) => c.isFault);
    expect(within(0).map((c) => [c.what, c.into])).toEqual(
      expect.arrayContaining([
        ['left cheek', 'fingers'],
        ['right cheek', 'fingers'],
      ]),
    );
    expect(within(1.5)).toEqual([]);
  });
});

/** The body, or the panel, that a reason names; none where it names a length or an angle. */
const namedIn = ({ text, touches }: Reason): string | null => {
  const bodies = [
    [/upper beam/, 'beam'],
    [/finger space/, 'fingers'],
    [/leaf/, 'leaf'],
    [/the bed/, 'bed'],
    [/the ram/, 'ram'],
    [/the die/, 'die'],
    [/the punch/, 'punch'],
    [/swings into/, touches],
  ] as const;
  return bodies.find(([pattern]) => pattern.test(text))?.[1] ?? null;
};

const pair = (a: string, b: string): string =>
  [a, b].toSorted((x, y) => (x < y ? -1 : 1)).join(' and ');

describe('planner and replay agree on every stroke from every state', () => {
  test.each([
    ['a zed', 'bracket-zed', { ...ZED, offset: 15 }, BOX_PAN],
    ['a zed', 'bracket-zed', ZED, PRESS_BRAKE],
    [
      'a steep channel',
      'bracket-channel',
      { ...CHANNEL, flangeA: 30, web: 20, bendAngle: 120 },
      PRESS_BRAKE,
    ],
    ['a hat', 'bracket-hat', HAT, BOX_PAN],
    [
      'a bracket with cheeks',
      'bracket-gusset',
      { ...DC, base: 70, upright: 90, width: 60, gussetDepth: 40, gussetHeight: 50 },
      BOX_PAN,
    ],
  ])('%s (%s)', async (_, family, inputs, machine) => {
    const { flat, plan } = await onlyPlanned(family, inputs, machine);
    const { net, strokes } = plan.answer.lattice;
    const idOf = (number: number): string => net.folds[number]?.id ?? '';
    const found = { clear: 0, blocked: 0 };
    for (let made = 0; made < 1 << net.folds.length; made++) {
      for (const stroke of strokes.filter((s) => (s.bits & made) === 0 && s.isInLine(made))) {
        for (const placement of [0, 1] as const) {
          const after = net.folds.map((f) => f.id).filter((_id, i) => (made & (1 << i)) !== 0);
          const [first] = flat.bends.filter((b) => b.id === idOf(stroke.folds[0] as number)) as [
            FlatPattern['bends'][number],
          ];
          const clamped = placement === 0 ? first.parent : first.child;
          const rooms = stroke
            .tools(made, placement, stroke.taken(made, placement))
            ?.map((b) => b.room);
          const { contacts } = replaySolid(
            flat,
            plan.machine,
            [
              {
                bends: stroke.folds.map(idOf),
                clamped,
                stopAtDeg: stroke.rules.swingDeg,
                places: rooms && roomsOf(machine, rooms),
              },
            ],
            'about the hinge',
            after,
          );
          const about = `${first.id} after ${after.join()}, ${clamped} clamped`;
          const why = whyNot(net, stroke, made, placement);
          if (why === undefined) {
            found.clear += 1;
            expect(
              contacts.filter((c) => c.isFault),
              about,
            ).toEqual([]);
            continue;
          }
          const into = namedIn(why);
          if (into === null) continue;
          found.blocked += 1;
          const met = contacts
            .filter((c) => c.deepestMm >= CONTACT_GAP_MM)
            .map((c) => pair(c.what, c.into));
          if (into === why.touches) expect(met.join(), `${about}: ${why.text}`).toContain(into);
          else expect(met, `${about}: ${why.text}`).toContain(pair(why.touches ?? '', into));
        }
      }
    }
    expect(Math.min(found.clear, found.blocked)).toBeGreaterThan(1);
  });
});
