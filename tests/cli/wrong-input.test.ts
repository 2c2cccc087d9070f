import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  BRACKET,
  blankwright,
  contents,
  json,
  names,
  type Problems,
  type Ran,
  tempFolder,
} from '../helpers/command.ts';

const words = (line: string): string[] => line.split(' ');
const bracketWithout = (flag: string): string[] => {
  const at = BRACKET.indexOf(flag);
  return BRACKET.toSpliced(at, 2);
};

/** A command line, and what its message has to say. Nothing may be made of any of them. */
const WRONG: readonly {
  readonly name: string;
  readonly args: readonly string[];
  readonly says: readonly string[];
}[] = [
  {
    name: 'a decimal comma',
    args: [...bracketWithout('--leg-a'), '--leg-a', '1,5'],
    says: ['legA', '1,5', '1 to 6000 mm', '1.5'],
  },
  {
    name: 'not a number',
    args: [...bracketWithout('--width'), '--width', 'NaN'],
    says: ['width', 'NaN', '1 to 6000 mm'],
  },
  {
    name: 'no end',
    args: [...bracketWithout('--width'), '--width', 'Infinity'],
    says: ['width', 'Infinity', '1 to 6000 mm'],
  },
  {
    name: 'a negative length',
    args: [...bracketWithout('--leg-a'), '--leg-a', '-5'],
    says: ['legA', "'-5'", '1 to 6000 mm'],
  },
  {
    name: 'a negative length with its unit',
    args: [...bracketWithout('--leg-a'), '--leg-a', '-5mm'],
    says: ['legA', "'-5mm'", '1 to 6000 mm'],
  },
  {
    name: 'a negative length behind an equals sign',
    args: [...bracketWithout('--leg-a'), '--leg-a=-1/8in'],
    says: ['legA', '-1/8in', '1 to 6000 mm'],
  },
  {
    name: 'too long',
    args: [...bracketWithout('--leg-b'), '--leg-b', '6000.01'],
    says: ['legB', '6000.01', '1 to 6000 mm'],
  },
  {
    name: 'an unknown unit',
    args: [...bracketWithout('--leg-b'), '--leg-b', '4yd'],
    says: ['legB', '4yd', '1 to 6000 mm'],
  },
  {
    name: 'left out',
    args: bracketWithout('--thickness'),
    says: ['thickness', 'nothing', 'gauge', 'such as'],
  },
  {
    name: 'no value behind a flag',
    args: [...BRACKET, '--name'],
    says: ['--name', 'nothing', 'a value'],
  },
  {
    name: 'no value between flags',
    args: [...BRACKET, '--name', '--hand', 'left'],
    says: ['--name', 'nothing', 'a value'],
  },
  {
    name: 'a flag twice',
    args: [...BRACKET, '--leg-a', '61'],
    says: ['--leg-a', '2 times', 'once'],
  },
  {
    name: 'an unknown flag',
    args: [...BRACKET, '--thikness', '2'],
    says: ['--thikness', '--thickness', 'did you mean --thickness?'],
  },
  { name: 'an unknown short flag', args: [...BRACKET, '-x', '2'], says: ['-x', 'does not know'] },
  {
    name: 'a flag of another family',
    args: [...BRACKET, '--flange-a', '2'],
    says: ['--flange-a', 'does not know', '--leg-a'],
  },
  {
    name: 'names every object has',
    args: [...BRACKET, '--__proto__', '1', '--constructor', '2'],
    says: ['proto', '--constructor', 'does not know'],
  },
  {
    name: 'a path into an object',
    args: [...BRACKET, '--__proto__.polluted', '1'],
    says: ['--__proto__.polluted', 'does not know'],
  },
  {
    name: 'a switch with a value',
    args: [...BRACKET, '--cut-only=perhaps'],
    says: ['--cut-only', 'perhaps', 'the flag alone'],
  },
  { name: 'a word too many', args: [...BRACKET, 'please'], says: ['please', 'quotes'] },
  {
    name: 'an unknown material',
    args: [...BRACKET.slice(0, 8), '--thickness', '3', '--material', 's257'],
    says: ['material', 's257', 's275'],
  },
  {
    name: 'an unknown rule',
    args: [...BRACKET, '--rule', 'din6953'],
    says: ['rule', 'din6953', 'din6935'],
  },
  {
    name: 'a K factor over 1',
    args: [...BRACKET, '--rule', 'k:4.2'],
    says: ['rule', 'k:4.2', 'between 0 and 1'],
  },
  {
    name: 'an unknown hand',
    args: [...BRACKET, '--hand', 'middle'],
    says: ['hand', 'middle', 'left', 'right', 'both'],
  },
  { name: 'half a part', args: [...BRACKET, '--quantity', '1.5'], says: ['quantity', '1.5'] },
  {
    name: 'a hole of no known size',
    args: [...BRACKET, '--holes-a', '35,20,M7x'],
    says: ['holesA', 'M7x'],
  },
  {
    name: 'an unknown dialect',
    args: [...BRACKET, '--dxf-version', 'r13'],
    says: ['dxf-version', 'r13', 'one of r2000, r12'],
  },
  {
    name: 'an unknown family',
    args: words('make bracket-angel --leg-a 60'),
    says: ['family', 'bracket-angel', 'bracket-gusset', 'did you mean bracket-angle?'],
  },
  {
    name: 'a family by other words',
    args: ['make', 'shelf-bracket'],
    says: ['family', 'did you mean bracket-gusset?'],
  },
  { name: 'no family', args: ['make'], says: ['family', 'nothing', 'blankwright list'] },
  {
    name: 'a family called like a property',
    args: ['make', '__proto__'],
    says: ['family', '__proto__', 'bracket-angle'],
  },
  { name: 'an unknown command', args: ['mkae'], says: ['command', 'mkae', 'did you mean make?'] },
  {
    name: 'a command called like a property',
    args: ['toString'],
    says: ['command', 'toString', 'make'],
  },
  {
    name: 'a bend without thickness',
    args: words('bend --radius 3'),
    says: ['thickness', 'nothing', '25 mm'],
  },
  {
    name: 'a bend turned too far',
    args: words('bend --thickness 3 --angle 181'),
    says: ['angle', '181', '0 to 180'],
  },
  {
    name: 'a bend with a comma',
    args: words('bend --thickness 1,5'),
    says: ['thickness', '1,5', '1.5'],
  },
  {
    name: 'a bend by a table that is not there',
    args: words('bend --thickness 3 --rule measured'),
    says: ['rule', 'measured', 'din6935'],
  },
];

describe('wrong input: exit 2, the input, what was given, what is allowed; no file, no stack trace', () => {
  const runs: { ran: Ran; files: string[] }[] = [];
  test('all of them run', async () => {
    // In turn by fours: the machine would be no faster with more at a time.
    for (let i = 0; i < WRONG.length; i += 4) {
      const some = WRONG.slice(i, i + 4).map(async ({ args }) => {
        const cwd = tempFolder();
        const ran = await blankwright(args, cwd);
        return { ran, files: names(cwd) };
      });
      runs.push(...(await Promise.all(some)));
    }
    expect(runs).toHaveLength(WRONG.length);
  });

  test.each(WRONG.map((w, i) => ({ ...w, i })))('$name', ({ says, i }) => {
    const { ran, files } = runs[i] as (typeof runs)[number];
    expect([ran.code, ran.out, files]).toEqual([2, '', []]);
    const said = ran.err.toLowerCase();
    for (const word of says) expect(said).toContain(word.toLowerCase());
    expect(ran.err).not.toMatch(/^\s+at /m);
  });
});

test('every problem is told at once, and nothing is made of the inputs that were right', async () => {
  const cwd = tempFolder();
  const ran = await blankwright(
    [
      'make',
      'bracket-angle',
      '--leg-a',
      '1,5',
      '--leg-b',
      '40',
      '--width',
      '0',
      '--thickness',
      'thick',
      '--json',
    ],
    cwd,
  );
  expect(ran.code).toBe(2);
  expect(json<Problems>(ran).problems.map((p) => p.input)).toEqual(['legA', 'width', 'thickness']);
  expect(names(cwd)).toEqual([]);
});

test('nothing typed steers the terminal it is told on', async () => {
  const { code, err } = await blankwright(
    [...BRACKET, '--hand', '\u001b[2Jleft\u202e'],
    tempFolder(),
  );
  expect(code).toBe(2);
  expect(err).not.toMatch(/[\p{Cc}\p{Cf}](?<!\n)/u);
});

test('a stop for one part writes nothing of the other hand, nor the folder', async () => {
  const cwd = tempFolder();
  const ran = await blankwright(
    [...BRACKET, '--hand', 'both', '--rule', 'measured', '--out', 'made'],
    cwd,
  );
  expect([ran.code, ran.out, names(cwd)]).toEqual([1, '', []]);
  expect(ran.err).toContain('stop');
  expect(ran.err).toContain('Nothing was written');
});

test('lengths in every notation make the same bytes', async () => {
  const cwd = tempFolder();
  const line = (a: string, b: string, width: string): string[] => [
    'make',
    'bracket-angle',
    '--leg-a',
    a,
    '--leg-b',
    b,
    '--width',
    width,
    '--thickness',
    '1/8in',
    '--json',
    '--out',
  ];
  const [metric, inch] = await Promise.all([
    blankwright([...line('101.6', '63.5', '120-2*3'), 'a'], cwd),
    blankwright([...line('4"', '2 1/2in', '114mm'), 'b'], cwd),
  ]);
  expect([metric.code, inch.code]).toEqual([0, 0]);
  expect(contents(join(cwd, 'a'))).toEqual(contents(join(cwd, 'b')));
});
