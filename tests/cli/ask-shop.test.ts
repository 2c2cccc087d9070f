import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { ask, FINGERS, folderIn, NO_MORE, shopOf } from '../helpers/asked-shop.ts';
import { fixedRuns } from '../helpers/extent.ts';

/** How many lines of a machine n answers give: a name each, and what came after it. */
const figuresBy = (n: number): number =>
  2 + [3, 4, 7, 8, 9, 13, 14, 15, 16, 17].filter((at) => at <= n).length + (n >= 15 ? 1 : 0);

describe('a shop that is asked for', () => {
  test('becomes a file of what was answered alone, each figure measured', async () => {
    const { written, said, left } = await ask([...FINGERS, ...NO_MORE, 'yes']);
    expect(left).toEqual([]);
    // 90 degrees of 1.5 mm dc01 over a radius of 1.5 spring back by 1 in 100: 92 - 90.9.
    expect(written)
      .toBe(`# The shop as it was measured. What is left out here is as in the built-in shop, and assumed.

folders:
  - like: boxpan-1250x2.0
    id: bench
    name: finger folder bench
    workingLength: 1000
    capacity: 1.5
    hardestFold: { material: dc01, thickness: 2, length: 600 }
    noseRadii: [ 0.5, 2 ]
    noseSetback: 1.8
    stopOffset: 1.1 # set to 92 came out at 90, dc01 1.5; springback taken off
    clampOpening: 55
    fingers:
      widths: [ 25, 25, 25, 25, 50, 50, 100 ]
      boxDepth: 82
    leafBarFitted: true
`);
    const { cutters, sheets } = shopOf(written);
    expect([cutters, sheets]).toEqual([DEFAULT_SHOP.cutters, DEFAULT_SHOP.sheets]);
    expect(folderIn(written)).toMatchObject({
      stopOffsetDeg: { value: 1.1, basis: 'measured' },
      isLeafBarFitted: { value: true, basis: 'measured' },
      hardestFold: { basis: 'measured' },
      noseSetbackMm: { value: 1.8, basis: 'measured' },
      bedDepthMm: { basis: 'published' },
      clamp: { widthsMm: { basis: 'measured' }, beamDepthMm: { basis: 'from memory' } },
    });
    // What changes is shown before it is asked whether to write it.
    expect(said).toMatch(
      /\n\+ {5}stopOffset: 1\.1 # set to 92 .*\n(.*\n)+\nWrite this to shop\.yaml/,
    );
  });

  test('every question says how it is measured, or what is allowed', async () => {
    const { said } = await ask([...FINGERS, ...NO_MORE, 'no']);
    for (const how of ['Tape', 'feeler gauges', 'angle finder', 'Radius gauge', 'Square', 'square'])
      expect(said).toContain(how);
  });

  test('Enter leaves all assumed; nothing answered, nothing written', async () => {
    const { written, said } = await ask(NO_MORE);
    expect(written).toBeUndefined();
    expect(said).toContain('Nothing was answered');
    const bare = await ask(['straight', '', ...Array<string>(7).fill(''), '', ...NO_MORE, '']);
    expect(folderIn(bare.written)).toMatchObject({
      id: 'straight',
      clamp: { kind: 'one piece' },
      workingLengthMm: { value: 2000, basis: 'published' },
    });
  });

  test('a wrong answer is asked again with what is allowed, and nothing typed is lost', async () => {
    const wrong = [
      ['scissors', 'fingers'],
      ['My Folder', 'bench'],
      ['long', '1000'],
      ['-1', '1.5'],
      ['2000', '2'],
      ['butter', 'dc01'],
      ['x', '600'],
      ['round', '0.5, 2'],
      ['900', '1.8'],
      ['nine', '92'],
      ['190', '90'],
      ['dc01', 'dc01 1.5'],
      ['', ''],
      ['0', '55'],
      ['25 by 4', '25 x4, 50x2, 100'],
      ['deep', '82'],
      ['perhaps', 'yes'],
    ];
    const answers = wrong.flatMap(([bad, good]) => (bad === good ? [good] : [bad, good]));
    const { written, said, left } = await ask([
      ...answers,
      '',
      '',
      'big',
      '',
      'maybe',
      'yes',
    ] as string[]);
    const right = await ask([...FINGERS, ...NO_MORE, 'yes']);
    expect([written, left]).toEqual([right.written, []]);
    expect(said).toContain('allowed: fingers, straight, brake\n');
    expect(said).toContain("'25 by 4' is no width: allowed: widths with how many");
    expect(said).toContain('allowed: material and thickness, such as dc01 1.5');
    expect(said).toContain("'big' is no sheet: allowed: length x width");
    expect(said.match(/allowed: .*0\.1 to 100|allowed: .*mm/g)?.length).toBeGreaterThan(3);
  });

  test('the answers end half way: nothing is written; done keeps what was answered', async () => {
    const whole = [...FINGERS, ...NO_MORE];
    for (let n = 0; n <= whole.length; n++) {
      const { written, said } = await ask(whole.slice(0, n));
      expect([n, written, said.endsWith('\nNothing was written.\n')]).toEqual([n, undefined, true]);
    }
    for (let n = 1; n <= whole.length; n++) {
      const { written } = await ask([...whole.slice(0, n), 'done', 'yes']);
      // A machine is kept from its name on, with the figures that were answered in full.
      expect([n, written?.match(/\n {4,}\w+:/g)?.length]).toEqual([
        n,
        n === 1 ? undefined : figuresBy(n),
      ]);
    }
  });

  test('test folds that do not go together are told, and a misread one is left out', async () => {
    const upTo = FINGERS.slice(0, 9);
    const { said, written } = await ask([
      ...upTo,
      '92',
      '90',
      'dc01 1.5',
      '50',
      '45',
      '',
      '92',
      '45',
      '',
      '',
      'done',
      'yes',
    ]);
    expect(said).toContain('the test folds differ by 3.5 degrees');
    expect(said).toContain('that is more than 20 degrees apart, and was left out');
    // 92 - 90.909 and 50 - 45.455: their mean.
    expect(folderIn(written).stopOffsetDeg?.value).toBe(2.8);
  });

  test('a folder without a bar has an edge of one thickness, and none to take off', async () => {
    const { written } = await ask([...FINGERS.slice(0, -1), 'none', '12', ...NO_MORE, '']);
    expect(folderIn(written).leafEdgeMm).toMatchObject({
      value: { barFitted: 12, barRemoved: 12 },
      basis: 'measured',
    });
  });

  test('brakes alone: no folder is assumed beside them', async () => {
    const { written } = await ask([
      'brake',
      '',
      '1500',
      '',
      '',
      '12',
      '8, 20',
      '120',
      '',
      ...NO_MORE,
      '',
    ]);
    expect(shopOf(written).machines).toMatchObject([
      {
        kind: 'press brake',
        id: 'brake',
        vMm: { value: 12, basis: 'measured' },
        otherVsMm: { value: [8, 20] },
        daylightMm: { value: 120 },
      },
    ]);
  });

  test('cutters and sheets: what is left out of a cutter is the built-in one, and said to be so', async () => {
    const { written } = await ask([
      '',
      'plasma',
      'torch',
      '',
      '',
      '1300 x 1300',
      '1.6',
      '3',
      'laser',
      'torch',
      'the town',
      '',
      '',
      '',
      '',

      'waterjet',
      'jet',
      '',
      '1',
      '0.5',
      '60',
      '60',
      '50',
      '2x1',
      '2x1m',
      '3000 x 1500',
      '0.8',
      '6',
      '',
      '2500x1250, 2000 x 1000 x 2 Steel',
      '',
    ]);
    const { cutters, sheets } = shopOf(written);
    const [plasma, laser] = DEFAULT_SHOP.cutters;
    expect(cutters).toMatchObject([
      { ...plasma, name: 'torch', bed: { length: 1300, width: 1300 }, kerf: [{ kerf: 1.6 }] },
      { ...laser, name: 'the town' },
      { process: 'waterjet', thickness: { from: 1, to: 50 }, kerf: [{ thickness: 6, kerf: 0.8 }] },
    ]);
    expect(written).toMatch(/# assumed, as in the built-in shop\n +thickness: \{ from: 1\.6/);
    expect(sheets).toEqual([
      { length: 2500, width: 1250 },
      { length: 2000, width: 1000, thickness: 2, material: 'steel' },
    ]);
  });
});

test('a cutter from where the built-in one ends on: its own end is asked for', async () => {
  const { said, written } = await ask([
    '',
    'plasma',
    'deep',
    '14',
    '',
    '13',
    '30',
    '',
    '',
    '',
    '',
    '',
  ]);
  expect(said).toContain('this one must be given\n');
  expect(said).toContain('allowed: at least the 14 of the thinnest');
  expect(shopOf(written).cutters[0]).toMatchObject({ thickness: { from: 14, to: 30 } });
});

describe('a shop file that is there', () => {
  const FILE = `# mine, of the year of the flood
name: barn
weldGap: 1 # by eye
folders:
  # bought second-hand
  - like: straight-2000x1.5
    id: old
    capacity: 1 # never more
  - boxpan-1250x2.0
bends: []
`;

  test('keeps all else, comments too; a machine that stood there by its id is like it', async () => {
    const again = await ask(
      ['2', '', '', '', '', '', '', '40', '10 x16', '', '', '1', '1900', 'done', 'yes'],
      FILE,
    );
    const { machines, name } = shopOf(again.written);
    expect([name, machines.map((m) => [m.id, m.workingLengthMm.value])]).toEqual([
      'barn',
      [
        ['old', 1900],
        ['boxpan-1250x2.0', 1250],
      ],
    ]);
    for (const line of FILE.split('\n').filter((l) => l !== '' && !l.includes('- boxpan')))
      expect(again.written?.split('\n')).toContain(line);
    expect(again.said).toContain('  1  old, manual straight folder');
    expect(again.said).toContain('  2  boxpan-1250x2.0, manual box-and-pan');
    expect(again.said).toMatch(/\n- {3}- boxpan-1250x2\.0\n(\+ .*\n)+/);
  });

  test('another machine stands behind those that are there, under another name', async () => {
    const { written, said } = await ask(['straight', 'old', 'new', '1500', 'done', ''], FILE);
    expect(said).toContain('allowed: a name other than old, which is taken');
    expect(shopOf(written).machines.map((m) => m.id)).toEqual(['old', 'boxpan-1250x2.0', 'new']);
  });
});

/** A figure in an answer, to the hundredth that anybody types. */
const mm = (min: number, max: number) =>
  fc.integer({ min: Math.ceil(min * 100), max: Math.floor(max * 100) }).map((n) => n / 100);

test('what is typed is what is read back, measured, whatever it is', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.record({
        length: mm(300, 3000),
        plate: mm(0.5, 4),
        nose: fc.uniqueArray(mm(0, 10), { minLength: 1, maxLength: 4 }),
        gap: mm(0, 20),
        open: mm(5, 200),
        counts: fc.array(fc.tuple(mm(5, 300), fc.integer({ min: 1, max: 5 })), {
          minLength: 1,
          maxLength: 8,
        }),
        deep: mm(20, 300),
        bar: fc.boolean(),
        hardest: fc.tuple(mm(0.5, 4), fc.constantFrom('dc01', '1.4301', 's355'), mm(50, 3000)),
      }),
      async ({ length, plate, nose, gap, open, counts, deep, bar, hardest }) => {
        const { written } = await ask([
          'fingers',
          'f',
          `${length}`,
          `${plate}`,
          ...hardest.map(String),
          nose.join('; '),
          `${gap}`,
          '',
          `${open}`,
          counts.map(([width, count]) => `${width} x ${count}`).join(' + '),
          `${deep}`,
          bar ? 'yes' : 'no',
          ...NO_MORE,
          'yes',
        ]);
        const measured = (value: unknown) => ({ value, basis: 'measured' });
        expect(folderIn(written)).toMatchObject({
          workingLengthMm: measured(length),
          capacityMm: measured(plate),
          noseRadiiMm: measured(nose),
          noseSetbackMm: measured(gap),
          clampOpeningMm: measured(open),
          isLeafBarFitted: measured(bar),
          hardestFold: measured({
            thickness: hardest[0],
            material: hardest[1],
            length: hardest[2],
            leafBarFitted: bar,
          }),
          clamp: {
            widthsMm: measured(
              counts.flatMap(([width, count]) => Array<number>(count).fill(width)),
            ),
            boxDepthMm: measured(deep),
          },
        });
      },
    ),
    { numRuns: fixedRuns(200) },
  );
});
