import { describe, expect, test } from 'vitest';
import { describeInputs } from '../../src/forms/read.ts';
import { FAMILIES } from '../../templates/index.ts';
import { loadFamily, make, rulesOf } from '../helpers/check-template.ts';

const dxfOf = async (family: string, inputs: Record<string, unknown>): Promise<string[]> => {
  const parts = await make(family, inputs);
  for (const part of parts) expect(rulesOf(part, 'stop')).toEqual([]);
  return parts.map((p) => p.files().find((f) => f.name.endsWith('.dxf'))?.contents ?? '');
};

/**
 * A family, what it needs beside holes, and for each of its inputs the same hole said in two or
 * three ways.
 */
const SAME: readonly (readonly [
  family: string,
  inputs: Record<string, unknown>,
  holes: Readonly<Record<string, readonly string[]>>,
])[] = [
  [
    'bracket-angle',
    { legA: 60, legB: 40, width: 80 },
    {
      holesA: ['35,20,M6', 'from fold 35, from left 20, M6', 'from edge 25, from right 60, M6'],
      holesB: ['25,20,M6', 'from fold 25, from left 20, M6', 'from edge 15, from right 60, M6'],
    },
  ],
  [
    'bracket-channel',
    { web: 80, flangeA: 40, flangeB: 50, width: 60 },
    {
      holesWeb: [
        '30,20,M6',
        'from flange A 30, from left 20, M6',
        'from flange B 50, from right 40, M6',
      ],
      holesA: ['25,20,M6', 'from fold 25, from left 20, M6', 'from edge 15, from right 40, M6'],
      holesB: ['25,20,M6', 'from fold 25, from left 20, M6', 'from edge 25, from right 40, M6'],
    },
  ],
  [
    'bracket-zed',
    { flangeA: 40, offset: 60, flangeB: 50, width: 60 },
    {
      holesWeb: [
        '30,20,M6',
        'from flange A 30, from left 20, M6',
        'from flange B 30, from right 40, M6',
      ],
      holesA: ['25,20,M6', 'from edge 15, from right 40, M6'],
      holesB: ['25,20,M6', 'from edge 25, from right 40, M6'],
    },
  ],
  [
    'bracket-hat',
    { crown: 80, height: 50, footA: 40, footB: 50, width: 60 },
    {
      holesCrown: [
        '30,20,M6',
        'from side A 30, from left 20, M6',
        'from side B 50, from right 40, M6',
      ],
      holesA: ['25,20,M6', 'from crown 25, from left 20, M6', 'from foot 25, from right 40, M6'],
      holesB: ['20,20,M6', 'from crown 20, from left 20, M6', 'from foot 30, from right 40, M6'],
      holesFootA: ['25,20,M6', 'from fold 25, from left 20, M6', 'from edge 15, from right 40, M6'],
      holesFootB: ['25,20,M6', 'from edge 25, from right 40, M6'],
    },
  ],
  [
    'bracket-gusset',
    { base: 80, upright: 100, width: 60, gussetDepth: 60, gussetHeight: 60 },
    {
      holesBase: ['60,30,M6', 'from upright 60, from left 30, M6', 'from edge 20, middle, M6'],
      holesUpright: [
        '80,25,M6',
        'from base 80, from left 25, M6',
        'from edge 20, from right 35, M6',
      ],
      holesLeft: ['20,20,6', 'from fold 20, from upright 20, 6'],
      holesRight: ['20,20,6', 'from upright 20, from fold 20, 6'],
    },
  ],
  [
    'tray',
    { length: 200, depth: 140, height: 45 },
    {
      holesBase: [
        '60,50,M6',
        'from front 60, from left 50, M6',
        'from back 80, from right 150, M6',
      ],
      holesFront: ['25,60,M6', 'from base 25, from left 60, M6', 'from top 20, from right 140, M6'],
      holesBack: ['25,60,M6', 'from base 25, from right 60, M6', 'from top 20, from left 140, M6'],
      holesLeft: ['25,60,M6', 'from base 25, from back 60, M6', 'from top 20, from front 80, M6'],
      holesRight: ['25,60,M6', 'from base 25, from front 60, M6', 'from top 20, from back 80, M6'],
    },
  ],
  [
    'heel-rest',
    { floorAngle: -18, width: 160, treadDepth: 110, lipHeight: 0 },
    {
      holesTread: ['60,40,8', 'from rear 60, from left 40, 8', 'from front 50, from right 120, 8'],
      holesRiser: ['20,40,8', 'from foot 20, from left 40, 8', 'from foot 20, from right 120, 8'],
      holesFront: ['14,40,6', 'from fold 14, from left 40, 6', 'from edge 11, from right 120, 6'],
      holesRear: ['14,40,6', 'from fold 14, from left 40, 6', 'from edge 11, from right 120, 6'],
    },
  ],
  [
    'strap',
    { across: 150, height: 100, boltCentres: 220 },
    {
      holesCrown: ['60,15,5', 'from side A 60, from left 15, 5', 'from side B 100, middle, 5'],
      holesA: ['60,15,5', 'from foot 60, from left 15, 5'],
      holesB: ['60,15,5', 'from foot 60, from right 15, 5'],
    },
  ],
  [
    'vent-panel',
    { width: 200, height: 150, foldLeft: 'up' },
    {
      holes: [
        '60,40,8',
        'from bottom 60, from left 40, 8',
        'from top 90, from left 40, 8',
        'from right 160, from bottom 60, 8',
      ],
    },
  ],
  [
    'ring',
    { outer: 120, inner: 30, boltCircle: 95 },
    { holes: ['-20,25,5', 'up -20, right 25, 5', 'right 25, up -20, 5'] },
  ],
  [
    'plate',
    { outline: '0,0; 120,0; 120,80; 0,80' },
    { holes: ['20,35,5', 'x 20, y 35, 5', 'y 35, x 20, 5'] },
  ],
  [
    'strut-brace',
    { points: 'A: 0,0; B: 112,8; C: 48,94' },
    { holes: ['50,35,12', 'x 50, y 35, 12'] },
  ],
  [
    'baffle',
    { width: 300, height: 200, openPercent: 0 },
    { holesPanel: ['90,120,12', 'from floor 90, from left 120, 12'] },
  ],
  [
    'duct-box',
    { width: 240, height: 160, endWidth: 140, endHeight: 120, length: 200, lip: 0 },
    {
      holesBottom: [
        '60,110,10',
        'from aperture 60, from right 110, 10',
        'from aperture 60, from left 130, 10',
      ],
      holesRight: [
        '60,70,10',
        'from aperture 60, from top 70, 10',
        'from aperture 60, from bottom 90, 10',
      ],
      holesTop: [
        '60,110,10',
        'from aperture 60, from left 110, 10',
        'from aperture 60, from right 130, 10',
      ],
      holesLeft: [
        '60,70,10',
        'from aperture 60, from bottom 70, 10',
        'from aperture 60, from top 90, 10',
      ],
    },
  ],
  [
    'tank',
    { length: 600, width: 400, height: 300, longestBay: 1000 },
    {
      filler: ['80,200,60', 'from deep 80, from left 200, 60'],
      outlet: ['40,200,22', 'from floor 40, from left 200, 22'],
      return: ['150,60,14', 'from deep 150, from left 60, 14'],
      sender: ['300,200,54', 'from left 200, from deep 300, 54'],
      breather: ['60,60,10', 'from deep 60, from left 60, 10'],
      link: ['60,120,35', 'from floor 60, from left 120, 35'],
      holesTop: ['200,300,12', 'from deep 200, from left 300, 12'],
      holesFloor: ['200,300,12', 'from deep 200, from left 300, 12'],
      holesDeep: ['100,300,12', 'from floor 100, from left 300, 12'],
      holesShallow: ['100,300,12', 'from floor 100, from left 300, 12'],
      holesLeft: ['100,300,12', 'from floor 100, from deep 300, 12'],
      holesRight: ['100,300,12', 'from floor 100, from deep 300, 12'],
    },
  ],
  [
    'tank-plan',
    { outline: '0,0; 500,0; 500,300; 0,300', floor: '0', top: '250', longestBay: 1000 },
    {
      filler: ['80,150,60', 'x 80, y 150, 60', 'y 150, x 80, 60'],
      breather: ['60,60,10', 'x 60, y 60, 10'],
      return: ['150,60,14', 'x 150, y 60, 14'],
      pickup: ['100,100,14', 'y 100, x 100, 14'],
      drain: ['50,50,20', 'x 50, y 50, 20'],
      holesTop: ['200,100,12', 'y 100, x 200, 12'],
      link: ['120,60,35', 'from corner 120, from zero 60, 35', 'from zero 60, from corner 120, 35'],
      sender: ['300,150,54', 'x 300, y 150, 54'],
    },
  ],
  [
    'tank-sections',
    {
      sections: '0: 0,0; 300,0; 300,200; 0,200 | 500: 0,0; 300,0; 300,200; 0,200',
      longestBay: 1000,
    },
    {
      filler: ['80,150,60', 'from station 80, from across 150, 60', 'across 150, station 80, 60'],
      breather: ['60,60,10', 'from station 60, from across 60, 10'],
      return: ['150,60,14', 'from station 150, from across 60, 14'],
      pickup: ['100,100,14', 'from across 100, from station 100, 14'],
      drain: ['50,50,20', 'from station 50, from across 50, 20'],
      holesTop: ['200,100,12', 'from across 100, from station 200, 12'],
    },
  ],
];

describe.each(SAME)('%s', (family, needs, holes) => {
  const base = { material: 's235', thickness: 2, ...needs };
  test.each(Object.entries(holes))(
    '%s: the same place in all words, byte for byte',
    async (input, [short = '', ...named]) => {
      const extra = input === 'link' ? { linkOn: family === 'tank' ? 'deep' : 1 } : {};
      const wanted = await dxfOf(family, { ...base, ...extra, [input]: short });
      expect(wanted).not.toEqual(await dxfOf(family, base));
      for (const other of named)
        expect(await dxfOf(family, { ...base, ...extra, [input]: other }), other).toEqual(wanted);
    },
  );
});

test('every input of holes is among these, and says its order', async () => {
  const known = new Map(SAME.map(([family, , holes]) => [family, Object.keys(holes)]));
  for (const family of FAMILIES.keys()) {
    const fields = describeInputs(await loadFamily(family)).filter((i) => i.kind === 'holes');
    expect([...(known.get(family) ?? [])].sort(), family).toEqual(fields.map((i) => i.name).sort());
    for (const { allowed } of fields)
      expect(allowed).toMatch(/or short as 35,20,M8 in the order \w+/);
  }
});

// Looking into the aperture; which end of a wall was meant could not be told from 'the left end
// seen from outside'.
test('holes in the walls of a duct lie at the wall that they are measured from', async () => {
  const inputs = {
    width: 240,
    height: 160,
    endWidth: 240,
    endHeight: 160,
    length: 200,
    lip: 0,
    material: 's235',
    thickness: 1,
    blanks: 'whole',
    seam: 'bottom-right',
  };
  const across = async (input: string, hole: string) => {
    const [part] = await make('duct-box', { ...inputs, [input]: hole });
    const panel = part?.part?.panels.find((p) => p.cutouts.length > 0);
    const [cut] = panel?.cutouts ?? [];
    return { panel: panel?.id, x: cut?.kind === 'round' ? cut.centre[0] : NaN };
  };
  // Panels are drawn as seen from inside, the way into the duct upwards: of the bottom, right is
  // right.
  expect(await across('holesBottom', 'from aperture 60, from right 30, 10')).toEqual({
    panel: 'bottom',
    x: expect.closeTo(90, 6),
  });
  expect(await across('holesBottom', 'from aperture 60, from left 30, 10')).toEqual({
    panel: 'bottom',
    x: expect.closeTo(-90, 6),
  });
  // Of the top, hung over the head, right is left.
  expect(await across('holesTop', 'from aperture 60, from left 30, 10')).toEqual({
    panel: 'top',
    x: expect.closeTo(90, 6),
  });
});

test('a fitting of a tank measured from what its panel does not have is told', async () => {
  const [part] = await make('tank', {
    length: 600,
    width: 400,
    height: 300,
    longestBay: 1000,
    filler: 'from floor 80, from left 200, 60',
    material: 's235',
    thickness: 2,
  });
  expect(rulesOf(part, 'stop')).toEqual(['fitting-on-other-panel']);
  expect(part?.result.findings[0]?.message).toContain('write from deep and from left');
});
