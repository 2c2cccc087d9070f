import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import type { Part } from '../../src/model/part.ts';
import { FAMILIES } from '../../templates/index.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { examplesIn, inTurns } from '../helpers/extent.ts';
import { angle, fold, panel, part } from '../helpers/parts.ts';
import { TREES } from '../helpers/trees.ts';
import {
  HAT,
  planned,
  onlyPlanned,
  plannedPart,
  isFeasible,
  faults,
  BOTH,
} from './replay-solid-planned.ts';

/**
 * Families whose examples are all flat, rolled, or too much for either machine: a rest for a
 * heel that is not stands below.
 */
const WITHOUT: readonly string[] = ['ring', 'tube-hole', 'heel-rest', 'cone', 'elbow'];
/** Examples that are too much for both take long to prove so. */
const TOO_MUCH: readonly unknown[] = ['grille-intake', 'chute-mouth', 'dust-duct', 'battery-tray'];

describe('the plans of every family’s examples', () => {
  const families = [...FAMILIES.keys()].filter((f) => !WITHOUT.includes(f));
  test.each(families.map((family, place) => [family, place] as const))(
    '%s',
    async (family, place) => {
      let count = 0;
      const { examples } = await loadFamily(family);
      const enough = examples.filter((e) => !TOO_MUCH.includes(e.inputs['name']));
      const replay = async (
        some: typeof examples,
        machines: readonly (typeof BOTH)[number][],
      ): Promise<void> => {
        for (const { inputs } of some)
          for (const machine of machines)
            for (const found of (await planned(family, inputs, machine)).filter(isFeasible)) {
              count += 1;
              expect(faults(found), JSON.stringify(inputs)).toEqual([]);
            }
      };
      await replay(examplesIn({ examples: enough }), inTurns(BOTH, place, 2));
      // What the short extent happens to take may be too much for that machine.
      for (const one of enough) if (count === 0) await replay([one], BOTH);
      expect(count).toBeGreaterThan(0);
    },
  );
});

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
