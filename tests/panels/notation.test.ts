import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { stringify } from 'yaml';
import { describe, expect, test } from 'vitest';
import { jobJsonSchema } from '../../src/jobfile/json-schema.ts';
import { flangeMaps } from '../../src/panels/lines.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { blankwright, contents, json, type Problems, tempFolder } from '../helpers/command.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

const panels = await loadFamily('panels');

/** One part of the cart, said in each way there is. */
const SHEET = { material: 's235', thickness: 2, radius: 2.5 } as const;
const BASE = '120 x 80';
const LINES = [
  'lip on top 20 90 up from 10 to 110',
  'ear on lip end lip.height/2+5 45 down width base.width/4 left r3',
  'foot on left 30 holes from foot 15, middle, M6; from end 8, from left 12, 5',
  'side on bottom 25 110 down taper 10 cornerRadius 4',
];
const MAPS = [
  { name: 'lip', on: 'base top', height: 20, angle: 90, direction: 'up', from: 10, to: 110 },
  {
    name: 'ear',
    on: 'lip end',
    height: '15mm',
    angle: 45,
    direction: 'down',
    width: 30,
    align: 'left',
    radius: '3',
  },
  {
    name: 'foot',
    on: 'base left',
    height: 30,
    holes: ['from foot 15, middle, M6', 'from end 8, from left 12, 5'],
  },
  {
    name: 'side',
    on: 'base bottom',
    height: `${25 / 25.4}in`,
    angle: '110deg',
    direction: 'down',
    taper: 10,
    cornerRadius: 4,
  },
];

const filesOf = (inputs: Readonly<Record<string, unknown>>) => {
  const made = makeParts(panels, { name: 'one', ...SHEET, ...inputs }, UNPLANNED);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  expect(made.parts.map(({ stopped }) => stopped)).toEqual([false]);
  return made.parts.flatMap((part) => part.files());
};

const LINED = { base: BASE, flanges: LINES };

describe('one part in each notation has the same bytes', () => {
  test.each([
    ['maps', { base: { size: BASE }, flanges: MAPS }],
    [
      'maps and lines among each other',
      { base: BASE, flanges: [MAPS[0], LINES[1], MAPS[2], LINES[3]] },
    ],
    ['one text', { base: BASE, flanges: LINES.join(' | ') }],
    ['lines of a block of a file', { base: BASE, flanges: `\n${LINES.join('\n')}\n` }],
    ['a base by its sides', { base: { width: 120, depth: 'base.width*2/3' }, flanges: LINES }],
    [
      'other names in sums',
      {
        base: BASE,
        flanges: [LINES[0], MAPS[1], { ...MAPS[2], height: 'lip.height+ear.height-5' }, LINES[3]],
      },
    ],
  ])('%s', (_, inputs) => {
    expect(filesOf(inputs)).toEqual(filesOf(LINED));
  });

  // Numbers in names, with and without up: what stands behind an edge is height and angle.
  test.each([
    ['lip on wall 0 end 12', { on: 'wall 0 end', height: '12' }],
    ['lip on wall 0 left 12 45', { on: 'wall 0 left', height: '12', angle: '45' }],
    [
      'lip on wall 0 left 12 45 down width 9 left',
      { on: 'wall 0 left', height: '12', angle: '45', width: '9', align: 'left' },
    ],
    ['lip on wall 2 3 12 45 up', { on: 'wall 2 3', height: '12', angle: '45' }],
    ['lip on 3 12', { on: '3', height: '12' }],
    ['lip on top 12 width 9 left', { on: 'top', height: '12', width: '9', align: 'left' }],
    ['lip on top wall_0.height/2 60', { on: 'top', height: 'wall_0.height/2', angle: '60' }],
    ['lip on top from 3 to 9 joggle 2', { on: 'top', from: '3', to: '9', joggle: '2' }],
    ['lip on wall 0 end joggle 2', { on: 'wall 0 end', joggle: '2' }],
  ])('%s', (line, map) => {
    const read = flangeMaps(line);
    expect(read.ok && read.value).toEqual([expect.objectContaining({ name: 'lip', ...map })]);
  });

  test('flags, a file of inputs, a job in JSON and one in YAML', async () => {
    const folder = tempFolder();
    const out = (name: string): string => {
      mkdirSync(join(folder, name));
      return name;
    };
    const common = Object.entries(SHEET).flatMap(([key, value]) => [`--${key}`, String(value)]);
    const flags = ['--name', 'one', '--base', BASE, ...common];
    const each = LINES.flatMap((line) => ['--flange', line]);
    const job = {
      parts: [{ name: 'one', family: 'panels', inputs: { ...SHEET, base: BASE, flanges: MAPS } }],
    };
    writeFileSync(
      join(folder, 'one.json'),
      JSON.stringify({ family: 'panels', name: 'one', ...SHEET, ...LINED }),
    );
    writeFileSync(join(folder, 'job.json'), JSON.stringify(job));
    writeFileSync(join(folder, 'job.yaml'), stringify(job));
    const runs = [
      ['make', 'panels', ...flags, ...each, '--out', out('flags')],
      ['make', 'panels', ...flags, '--flanges', LINES.join(' | '), '--out', out('text')],
      ['make', 'panels', '--from', 'one.json', '--out', out('from')],
      ['job', 'job.json', '--out', out('json')],
      ['job', 'job.yaml', '--out', out('yaml')],
    ];
    for (const args of runs) {
      const ran = await blankwright(args, folder);
      expect([args[1], ran.code, ran.err]).toEqual([args[1], 0, '']);
    }
    const dxf = (name: string): string | undefined =>
      contents(join(folder, name))['one.dxf'] ??
      contents(join(folder, name, 'job', 'one'))['one.dxf'];
    expect(dxf('flags')).toMatch(/ENTITIES/);
    for (const name of ['text', 'from', 'json', 'yaml'])
      expect([name, dxf(name) === dxf('flags')]).toEqual([name, true]);
  });
});

describe('measurements of a job', () => {
  const jobOf = (measurements: Record<string, unknown>, inputs: Record<string, unknown>) => ({
    measurements,
    parts: [{ name: 'one', family: 'panels', inputs: { ...SHEET, ...inputs } }],
  });

  test('stand beside the lengths of the part, though they are called as its panels and edges are', async () => {
    const folder = tempFolder();
    const measurements = { lip: 20, top: 10, ear: 'lip/2', end: 110, gap: '1/2in' };
    writeFileSync(
      join(folder, 'job.json'),
      JSON.stringify(
        jobOf(measurements, {
          base: { size: '100+lip x 8*top' },
          flanges: [
            'lip on top lip 90 up from top to end',
            'ear on lip end lip.height/2+ear/2 45 down width base.width/4 left r3',
            {
              name: 'foot',
              on: 'base left',
              height: 'lip+ear',
              holes: 'from foot lip-5, middle, M6; from end 8, from left gap-0.7, 5',
            },
            'side on bottom lip.height+top/2 110 down taper 10 cornerRadius 4',
          ],
        }),
      ),
    );
    const ran = await blankwright(['job', 'job.json', '--out', 'out'], folder);
    expect([ran.code, ran.err]).toEqual([0, '']);
    expect(contents(join(folder, 'out', 'job', 'one'))['one.dxf']).toBe(
      filesOf(LINED).find(({ name }) => name.endsWith('.dxf'))?.contents,
    );
  });

  test('that are wrong are told by line and column of the file, and by the nearest name', async () => {
    const folder = tempFolder();
    const lines = [
      'measurements:',
      '  rail: 45',
      'parts:',
      '  - name: one',
      '    family: panels',
      '    inputs:',
      '      thickness: 2',
      '      base: 120 x 80',
      '      flanges:',
      '        - lip on top 20',
      '        - { name: ear, on: lip end, height: lip.hight/2 + rail }',
    ];
    writeFileSync(join(folder, 'job.yaml'), lines.join('\n'));
    const ran = await blankwright(['job', 'job.yaml', '--json', '--out', 'out'], folder);
    expect(ran.code).not.toBe(0);
    const { problems } = json<Problems>(ran);
    expect(problems).toHaveLength(1);
    const [problem] = problems;
    expect(JSON.stringify(problem)).toMatch(/line (9|10|11)\b.*column/);
    expect(problem?.mend).toContain('did you mean lip.height?');
  });
});

describe('the JSON Schema of a job', () => {
  const schema = jobJsonSchema(new Map([['panels', panels]]));
  const validate = new Ajv2020({ allErrors: true, strict: false }).compile(schema);
  const job = (inputs: Record<string, unknown>) => ({
    parts: [{ family: 'panels', inputs: { thickness: 2, ...inputs } }],
  });

  test.each([
    ['lines', LINED],
    ['maps', { base: { size: BASE }, flanges: MAPS }],
    [
      'a base by its sides, corners as maps',
      {
        base: {
          name: 'floor',
          width: 120,
          depth: '80mm',
          slits: '1,1 1,9',
          cutouts: ['1,1; 9,1; 9,9'],
        },
        flanges: LINES,
        corners: [{ between: ['lip', 'foot'], style: 'butt', through: 'lip', gap: 1 }],
      },
    ],
    [
      'a base that is an outline of points',
      {
        base: {
          outline: [{ x: 0, y: 0, edge: 'front' }, '120,0', { x: 120, y: 80, r: 3 }, '0,80'],
        },
      },
    ],
    [
      'a ring, with a hole of any shape',
      {
        base: {
          ring: { outer: 200, inner: 120, from: 0, to: '90deg' },
          holes: [
            '0,80,M6',
            { across: 10, along: 80, size: 5 },
            { outline: '0,70; 9,70; 9,75', use: 'to rail' },
          ],
        },
        order: ['base'],
      },
    ],
  ])('takes %s', (_, inputs) => {
    expect([validate(job(inputs)), validate.errors]).toEqual([true, null]);
  });

  test.each([
    ['a key that a base does not have', { base: { sise: BASE } }],
    [
      'a key that a flange does not have',
      { base: BASE, flanges: [{ name: 'a', on: 'top', hight: 3 }] },
    ],
    ['a flange without a name', { base: BASE, flanges: [{ on: 'top', height: 3 }] }],
    ['a flange on nothing', { base: BASE, flanges: [{ name: 'a', height: 3 }] }],
    [
      'a direction that there is not',
      { base: BASE, flanges: [{ name: 'a', on: 'top', direction: 'out' }] },
    ],
    ['a list as a height', { base: BASE, flanges: [{ name: 'a', on: 'top', height: [3] }] }],
    ['a corner of three', { base: BASE, corners: [{ between: ['a', 'b', 'c'], style: 'open' }] }],
    [
      'a corner of a style that there is not',
      { base: BASE, corners: [{ between: ['a', 'b'], style: 'closed' }] },
    ],
    ['half a ring', { base: { ring: { outer: 200 } } }],
  ])('refuses %s, as the command does', (_, inputs) => {
    expect(validate(job(inputs))).toBe(false);
    expect(makeParts(panels, { name: 'one', thickness: 2, ...inputs }, UNPLANNED).ok).toBe(false);
  });
});
