import { cpSync, existsSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { COMMANDS } from '../../src/cli/commands/index.ts';
import {
  BRACKET,
  blankwright,
  contents,
  json,
  type Problems,
  tempFolder,
} from '../helpers/command.ts';
import { fileNames } from '../helpers/file-names.ts';

const PART =
  'family: bracket-angle\nlegA: 60\nlegB: 40\nwidth: 80\nthickness: 3\nmaterial: s275\nradius: 3\n';
const JOB = `title: cart\nparts:\n  - { family: ring, inputs: { outer: 120, inner: 62, boltCircle: 95, thickness: 2 } }\n`;

/** A folder with a part, a job and distances in it. */
const bench = (): string => {
  const cwd = tempFolder();
  writeFileSync(join(cwd, 'part.yaml'), PART);
  writeFileSync(join(cwd, 'cart.job.yaml'), JOB);
  writeFileSync(join(cwd, 'points.txt'), 'A-B: 300\nB-C: 400\nA-C: 500\n');
  return cwd;
};

describe('flags may stand before the words, and the command too', () => {
  test.each([
    'job --out x cart.job.yaml',
    '--out x job cart.job.yaml',
    'job --all --out x cart.job.yaml',
    'pack --out x cart.job.yaml',
    'cutlist --csv cart.job.yaml',
    '--json trilaterate points.txt',
    'trilaterate --json points.txt',
    'describe --json ring',
    '--json describe ring',
    'completion --json bash',
    'make --from part.yaml bracket-angle',
    'make --cut-only --from part.yaml --out x bracket-angle --leg-a 61',
    '--from part.yaml make bracket-angle',
    'plan --from part.yaml bracket-angle',
    'plan --machine boxpan-1250x2.0 bracket-angle --from part.yaml',
    '--debug --json list',
  ])('%s', async (line) => {
    const ran = await blankwright(line.split(' '), bench());
    expect([ran.code, ran.err]).toEqual([0, '']);
  });

  test.each([
    'make --from part.yaml',
    'make --from part.yaml --out out',
    'plan --from part.yaml --json',
    'make --from=part.yaml',
  ])('the family of the file will do: %s', async (line) => {
    const ran = await blankwright(line.split(' '), bench());
    expect([ran.code, ran.err]).toEqual([0, '']);
    expect(ran.out).toContain('bracket-angle');
  });

  test('and make what they make behind them', async () => {
    const [before, behind] = [bench(), bench()];
    await blankwright(['make', '--from', 'part.yaml'], before);
    await blankwright(BRACKET, behind);
    expect(Object.keys(contents(join(before, 'out')))).toHaveLength(fileNames('').length);
    expect(contents(join(before, 'out'))).toEqual(contents(join(behind, 'out')));
  });

  test('a folder called like a command is a folder', async () => {
    const cwd = bench();
    const ran = await blankwright(['--out', 'make', 'job', 'cart.job.yaml'], cwd);
    expect([ran.code, existsSync(join(cwd, 'make', 'cart', 'index.html'))]).toEqual([0, true]);
  });

  test('a template of the user, whose family the file names', async () => {
    const cwd = tempFolder();
    cpSync('dist', join(cwd, 'node_modules', 'blankwright', 'dist'), { recursive: true });
    cpSync('package.json', join(cwd, 'node_modules', 'blankwright', 'package.json'));
    for (const name of ['zod', 'yaml'])
      cpSync(join('node_modules', name), join(cwd, 'node_modules', name), { recursive: true });
    writeFileSync(
      join(cwd, 'mine.mjs'),
      `import { assemble, defineTemplate, fields, rectangle } from 'blankwright/template';
export default defineTemplate({ family: 'patch', summary: 'A patch.', sketch: '', inputs: { side: fields.length({ about: 'Its side.', min: 1, max: 500 }) }, cautions: [], examples: [],
  build: (v) => ({ part: assemble(v, { root: 'patch', panels: [{ id: 'patch', outline: rectangle(0, 0, v.side, v.side), cutouts: [] }], folds: [] }) }) });`,
    );
    writeFileSync(join(cwd, 'patch.yaml'), 'family: patch\nside: 40\nthickness: 2\n');
    const ran = await blankwright(
      ['make', '--from', 'patch.yaml', '--template', resolve(cwd, 'mine.mjs')],
      cwd,
    );
    expect([ran.code, Object.keys(contents(join(cwd, 'out')))]).toEqual([0, fileNames('patch')]);
  });
});

describe('a family that cannot be found out is told where it was looked for', () => {
  const problem = async (line: string) =>
    json<Problems>(await blankwright([...line.split(' '), '--json'], bench())).problems[0];

  test('in a file that names none', async () => {
    const cwd = bench();
    writeFileSync(join(cwd, 'part.yaml'), PART.replace(/^family.*\n/, ''));
    const ran = await blankwright(['make', '--from', 'part.yaml', '--json'], cwd);
    expect([ran.code, json<Problems>(ran).problems]).toEqual([
      2,
      [
        {
          input: 'family',
          given: 'nothing',
          allowed:
            'the name of a family: blankwright make FAMILY; or family: and its name in part.yaml',
          mend: 'see blankwright list',
        },
      ],
    ]);
  });

  test('in a file that names one nobody knows', async () => {
    const cwd = bench();
    writeFileSync(join(cwd, 'part.yaml'), PART.replace('bracket-angle', 'bracket-angel'));
    expect(
      json<Problems>(await blankwright(['make', '--from', 'part.yaml', '--json'], cwd)).problems[0],
    ).toMatchObject({
      input: 'family',
      given: "'bracket-angel' in part.yaml",
      mend: 'did you mean bracket-angle?',
    });
  });

  test('behind a flag that is not known, which takes it', async () => {
    expect(await problem('make --froce bracket-angle --leg-a 60')).toMatchObject({
      given: 'nothing: bracket-angle is taken for the value of --froce',
      mend: 'write it first: blankwright make bracket-angle',
    });
  });

  test('a value that begins with a hyphen takes no word along', async () => {
    expect(
      await problem('make --leg-a -5 bracket-angle --leg-b 40 --width 80 --thickness 3'),
    ).toMatchObject({ input: 'legA', given: "'-5'" });
  });

  test('a file that is not named behind --from', async () => {
    expect(await problem('make bracket-angle --from')).toMatchObject({
      input: '--from',
      given: 'nothing',
    });
  });
});

describe('a flag that is not known', () => {
  test('is told the nearest three, and how to see the rest', async () => {
    const ran = await blankwright([...BRACKET, '--lega', '2', '--holes', '1,2,3'], tempFolder());
    const [lega, holes, ...others] = ran.err.trimEnd().split('\n');
    expect([ran.code, others]).toEqual([2, []]);
    expect(lega).toMatch(
      /^--lega: given a flag this command does not know; allowed: flags such as --leg-a, --leg-b, --[a-z-]+; blankwright make bracket-angle --help lists all \d+\. Did you mean --leg-a\?$/,
    );
    expect(holes).toMatch(/flags such as (?:--holes-[ab], ){2}/);
  });

  test.each(
    Object.entries(COMMANDS).map(
      ([name, { words }]) => [name, words === 'FAMILY' || name === 'plan' ? ['ring'] : []] as const,
    ),
  )('of %s: the help that is named lists the flags that are', async (name, words) => {
    const cwd = tempFolder();
    const problems = json<Problems>(
      await blankwright([name, ...words, '--no-such-flag-at-all', 'x', '--json'], cwd),
    ).problems;
    const { allowed } = problems.find(({ input }) => input === '--no-such-flag-at-all') ?? {
      allowed: '',
    };
    const [, few = '', help = '', count] =
      /^flags such as (.*); blankwright (.*) lists all (\d+)$/.exec(allowed) ?? [];
    const page = (await blankwright(help.split(' '), cwd)).out;
    for (const flag of few.split(', ')) expect(page).toMatch(new RegExp(`^ +${flag} `, 'm'));
    expect(page.match(/^ {2}--[a-z-]+/gm)).toHaveLength(Number(count));
  });
});
