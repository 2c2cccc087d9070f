import { describe, expect, test } from 'vitest';
import { readShop } from '../../src/shop/read.ts';
import { SHOP, problemsOf } from './shop-file.ts';

test('a shop file in order', () => {
  const read = readShop(SHOP);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const { shop } = read;
  expect([shop.name, shop.isAssumed, shop.weldGap, shop.marking]).toEqual([
    'the farm workshop',
    false,
    0.5,
    { folds: 'lines', face: 'inside', drilled: 'crosses' },
  ]);
  const [folder, brake] = shop.machines;
  if (folder?.kind !== 'folder' || folder.clamp.kind !== 'fingers' || brake?.kind !== 'press brake')
    throw new Error('a folder with fingers and a press brake');
  // A foot is 12 inches of 25.4 mm.
  expect([folder.workingLengthMm, folder.clamp.widthsMm.value]).toEqual([
    { value: 1219.2, basis: 'measured', source: 'the shop file' },
    [25, 50, 25.4, 75],
  ]);
  expect([
    folder.capacityMm?.value,
    folder.maxAngleDeg?.value,
    folder.isLeafBarFitted.value,
    brake.maxAngleDeg,
  ]).toEqual([1.5, 120, true, null]);
  // What is left out keeps the source of the built-in machine.
  expect(folder.clampLandMm.basis).toBe('common practice');
  expect([brake.punch, brake.vMm.value, brake.punches[0]?.section(120)[1]?.[2]]).toEqual([
    'straight',
    16,
    [6, 120],
  ]);
  expect(shop.cutters[0]?.kerf[1]).toEqual({ thickness: 3, kerf: 1.6 });
  // What it leaves out follows from its process: published/shop.json, min_web_plasma and thin_warp.
  expect([shop.cutters[0]?.leastWeb, shop.cutters[0]?.warpsUpTo]).toEqual([
    [{ thicknesses: 2, kerfs: 2 }],
    1.5,
  ]);
});

test('JSON is YAML too', () => {
  expect(
    readShop(
      '{"cutters":[{"name":"a","process":"laser","thickness":{"from":1,"to":3},"bed":{"length":100,"width":100},"kerf":[{"thickness":1,"kerf":0.1}]}]}',
    ).ok,
  ).toBe(true);
});

/**
 * What is changed in the file, and what the one problem says: its path, where it is, what is
 * allowed, the mend.
 */
const WRONG: readonly (readonly [
  name: string,
  was: string,
  is: string,
  input: string,
  ...says: string[],
])[] = [
  [
    'a word for a length',
    '{ thickness: 6, kerf: 2 }',
    '{ thickness: thick, kerf: 2 }',
    'cutters[0].kerf[2].thickness',
    "'thick' at line 10, column 22",
    '0.1 to 50 mm',
  ],
  [
    'a decimal comma',
    'kerf: 1.6',
    "kerf: '1,6'",
    'cutters[0].kerf[1].kerf',
    "'1,6' at line 9, column 31",
    '0.01 to 10 mm',
    '1.6',
  ],
  [
    'a length too large',
    'length: 2000, width: 1000 }',
    'length: 2000, width: 30000 }',
    'cutters[0].bed.width',
    '30000 at line 6, column 33',
    '10 to 20000 mm',
  ],
  [
    'a length below 0',
    'kerf: 1.2',
    'kerf: -1.2',
    'cutters[0].kerf[0].kerf',
    '-1.2 at line 8',
    '0.01 to 10 mm',
  ],
  [
    'not a number',
    'kerf: 1.2',
    'kerf: .nan',
    'cutters[0].kerf[0].kerf',
    'NaN at line 8',
    '0.01 to 10 mm',
  ],
  [
    'no end',
    'kerf: 1.2',
    'kerf: .inf',
    'cutters[0].kerf[0].kerf',
    'Infinity at line 8',
    '0.01 to 10 mm',
  ],
  [
    'an unknown unit',
    'workingLength: 4 ft',
    'workingLength: 4 yd',
    'folders[0].workingLength',
    "'4 yd' at line 14",
    '10 to 20000 mm',
    'mm, cm, m, in, ft',
  ],
  [
    'left out',
    ', kerf: 1.2',
    '',
    'cutters[0].kerf[0].kerf',
    'nothing in what begins at line 8, column 9',
    '0.01 to 10 mm',
    'add kerf',
  ],
  [
    'left empty',
    'kerf: 1.2',
    'kerf:',
    'cutters[0].kerf[0].kerf',
    'nothing at line 8',
    '0.01 to 10 mm',
  ],
  [
    'a list for a length',
    'kerf: 1.2',
    'kerf: [1.2]',
    'cutters[0].kerf[0].kerf',
    '[1.2] at line 8',
    '0.01 to 10 mm',
  ],
  [
    'a length for a list',
    'widths: [25, 50, 1in, 75]',
    'widths: 25',
    'folders[0].fingers.widths',
    '25 at line 25',
    'finger widths',
  ],
  [
    'an empty list',
    'widths: [25, 50, 1in, 75]',
    'widths: []',
    'folders[0].fingers.widths',
    '[] at line 25',
    '1 to 60 finger widths',
  ],
  [
    'a list for a set',
    'thickness: { from: 0.5, to: 10 }',
    'thickness: [0.5, 10]',
    'cutters[0].thickness',
    'line 5',
    'a set of from, to',
  ],
  [
    'a name misspelt',
    'process: plasma',
    'process: plasma\n    markes: yes',
    'cutters[0].markes',
    'under a name that is not known, at line 5, column 5',
    'one of name, process',
    'did you mean marks?',
  ],
  [
    'a name misspelt that has to be given',
    'name: torch',
    'nane: torch',
    'cutters[0].nane',
    'line 3, column 5',
    'did you mean name?',
  ],
  [
    'a name nobody knows',
    'price: 48.5',
    'colour: red',
    'sheets[0].colour',
    "'red' under a name that is not known, at line 39",
    'one of name, length, width',
    'leave it out',
  ],
  ['a name every object has', 'price: 48.5', '__proto__: 1', 'shop', 'line 39', 'leave it out'],
  [
    'a name at the top',
    'sheets:',
    'sheats:',
    'sheats',
    'line 38, column 1',
    'did you mean sheets?',
  ],
  [
    'a word misspelt',
    'process: plasma',
    'process: plasme',
    'cutters[0].process',
    "'plasme' at line 4, column 14",
    'laser, plasma, waterjet',
    'did you mean plasma?',
  ],
  [
    'a material that nobody knows',
    'material: steel',
    'material: s276',
    'sheets[0].material',
    "'s276'",
    'galvanised',
  ],
  [
    'an angle too large',
    'maxAngle: 120',
    'maxAngle: 190',
    'folders[0].maxAngle',
    '190 at line 16',
    '1 to 180 degrees',
  ],
  [
    'a range the wrong way round',
    'from: 0.5, to: 10',
    'from: 10, to: 0.5',
    'cutters[0].thickness.to',
    '0.5 at line 5, column 32',
    'at least the 10',
    'exchange',
  ],
  [
    'kerfs out of order',
    '{ thickness: 6, kerf: 2 }',
    '{ thickness: 3, kerf: 2 }',
    'cutters[0].kerf[2].thickness',
    '3 at line 10',
    'more than the 3',
    'in the order',
  ],
  [
    'no kerf for the other materials',
    '- { thickness: 1, kerf: 1.2 }\n      - { thickness: 3, kerf: 1.6 }\n      - { thickness: 6, kerf: 2 }',
    '- { thickness: 1, kerf: 1, material: steel }',
    'cutters[0].kerf',
    'line 8',
    'without a material',
  ],
  [
    'a limit that limits nothing',
    'folders:\n',
    '    leastHole: [{ upTo: 3 }]\nfolders:\n',
    'cutters[0].leastHole[0]',
    'line 11',
    'mm, thicknesses and kerfs',
  ],
  [
    'a limit for all before another',
    'folders:\n',
    '    leastHole: [{ mm: 3 }, { mm: 4 }]\nfolders:\n',
    'cutters[0].leastHole[0]',
    'line 11',
    'upTo in every row but the last',
  ],
  [
    'limits out of order',
    'folders:\n',
    '    leastHole: [{ upTo: 3, mm: 3 }, { upTo: 2, mm: 4 }]\nfolders:\n',
    'cutters[0].leastHole[1].upTo',
    '2 at line 11',
    'more than the 3',
  ],
  [
    'a hollow polygon',
    '[[-6, 22], [6, 22], [6, 120], [-6, 120]]',
    '[[-6, 22], [0, 60], [6, 22], [0, 120]]',
    'pressBrakes[0].punches[0].polygons[1]',
    'line 37',
    'convex polygon',
    'split',
  ],
  [
    'a polygon that crosses itself',
    '[[-6, 22], [6, 22], [6, 120], [-6, 120]]',
    '[[0, 0], [10, 30], [20, 0], [-5, 20], [25, 20]]',
    'pressBrakes[0].punches[0].polygons[1]',
    'line 37',
    'convex polygon',
  ],
  [
    'a polygon of two points',
    '[[-6, 22], [6, 22], [6, 120], [-6, 120]]',
    '[[-6, 22], [6, 22]]',
    'pressBrakes[0].punches[0].polygons[1]',
    'line 37',
    '3 to 40 points',
  ],
  [
    'a point of three',
    '[6, 120], ',
    '[6, 120, 1], ',
    'pressBrakes[0].punches[0].polygons[1][2]',
    'line 37',
    'a point [x, y]',
  ],
  [
    'a nose without depth',
    'noseFront: 20',
    'noseFront: 40',
    'folders[0].noseFront',
    '40 at line 20',
    'less than the 40 of noseDepth',
  ],
  [
    'a stiffener upside down',
    'startsBelow: 60',
    'startsBelow: 160',
    'folders[0].stiffener.endsBelow',
    '150 at line 24',
    'at least the 160',
  ],
  [
    'an overhang beside fingers',
    'bedDepth: 250',
    'bedDepth: 250\n    endOverhang: yes',
    'folders[0].endOverhang',
    'line 18',
    'no, where there are fingers',
  ],
  [
    'a name with spaces to type',
    'id: bench-folder',
    'id: bench folder',
    'folders[0].id',
    "'bench folder' at line 12",
    'small letters, digits',
  ],
  [
    'an id twice',
    'id: bench-folder',
    'id: brake',
    'pressBrakes[0].id',
    "'brake' at line 27",
    'no other of them has',
  ],
  [
    'a punch that is not there',
    'punchHeight: 120',
    'punchHeight: 120\n    punch: gooseneck',
    'pressBrakes[0].punch',
    "'gooseneck' at line 35",
    'one of straight',
  ],
  [
    'a name twice',
    'folders:\n',
    SHOP.slice(SHOP.indexOf('  - name: torch'), SHOP.indexOf('folders')).replace('torch', 'Torch') +
      'folders:\n',
    'cutters[1].name',
    "'Torch' at line 11",
    'a name no other of them has',
  ],
  [
    'no cutters',
    SHOP.slice(SHOP.indexOf('cutters'), SHOP.indexOf('folders')),
    'cutters: []\n',
    'cutters',
    '1 to 20 cutters',
  ],
];

describe('files that cannot be used: one problem, with its path', () => {
  test.each(WRONG)('%s', (_, was, is, input, ...says) => {
    expect(SHOP).toContain(was);
    const problems = problemsOf(SHOP.replace(was, is));
    expect(problems.map((problem) => problem.input)).toEqual([input]);
    const said = Object.values(problems[0] ?? {}).join('; ');
    for (const words of says) expect(said).toContain(words);
  });

  test('every problem is told at once', () => {
    const text = SHOP.replace('kerf: 1.2', 'kerf: none')
      .replace('maxAngle: 120', 'maxAngle: wide')
      .replace('price:', 'prise:')
      .replace('width: 1000 }', 'width: 1 }');
    expect(
      problemsOf(text)
        .map((problem) => problem.input)
        .toSorted(),
    ).toEqual([
      'cutters[0].bed.width',
      'cutters[0].kerf[0].kerf',
      'folders[0].maxAngle',
      'sheets[0].prise',
    ]);
  });
});

test('a name that is wrong beside one that is misspelt', () => {
  expect(
    problemsOf(SHOP.replace('name: torch', 'nane: torch\n    name: []'))
      .map((problem) => problem.input)
      .toSorted(),
  ).toEqual(['cutters[0].name', 'cutters[0].nane']);
});
