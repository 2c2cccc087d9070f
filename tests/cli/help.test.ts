import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { COMMANDS } from '../../src/cli/commands/index.ts';
import { FAMILIES } from '../../templates/index.ts';
import { blankwright, tempFolder } from '../helpers/command.ts';
import { inTurns } from '../helpers/extent.ts';
import { strips } from '../helpers/strips.ts';
import { serving } from '../page/served.ts';

/** The command line that a help page ends with, in words as a shell takes them. */
const exampleOf = (page: string): string[] => {
  const [, lines = ''] = page.split('\nExample:\n');
  const [program, ...words] = [...lines.replaceAll('\\\n', ' ').matchAll(/'([^']*)'|(\S+)/g)].map(
    ([, quoted, plain]) => quoted ?? plain ?? '',
  );
  expect(program).toBe('blankwright');
  return words;
};

const helpOf = async (...words: string[]): Promise<string> => {
  const ran = await blankwright([...words, '--help'], tempFolder());
  expect([ran.code, ran.err]).toEqual([0, '']);
  return ran.out;
};

/** What somebody who types the examples has at hand. */
const prepare = async (cwd: string): Promise<void> => {
  writeFileSync(
    join(cwd, 'job.yaml'),
    'title: cart\nparts:\n  - { family: ring, name: flange, inputs: { outer: 90, inner: 50, boltCircle: 72, thickness: 2 } }\n',
  );
  writeFileSync(join(cwd, 'holes.txt'), 'A-B: 312\nA-C: 250\nB-C: 200\n');
  writeFileSync(join(cwd, 'shop.yaml'), (await blankwright(['shop'], cwd)).out);
  writeFileSync(join(cwd, 'strips.csv'), strips());
  writeFileSync(
    join(cwd, 'part.json'),
    (
      await blankwright(
        [
          'make',
          'bracket-angle',
          '--leg-a',
          '60',
          '--leg-b',
          '40',
          '--width',
          '80',
          '--thickness',
          '3',
          '--json',
        ],
        cwd,
      )
    ).out,
  );
  writeFileSync(join(cwd, 'part.dxf'), readFileSync(join(cwd, 'out', 'bracket-angle.dxf')));
};

describe('the example on a help page works as it is typed', () => {
  test('of every command', async () => {
    const cwd = tempFolder();
    await prepare(cwd);
    for (const name of Object.keys(COMMANDS)) {
      const words = exampleOf(await helpOf(name));
      expect(words[0]).toBe(name);
      // The demo is made elsewhere: it takes its time.
      if (name === 'demo') continue;
      // The page is served until its process is told to end.
      if (name === 'page') {
        expect(await (await serving(words, cwd)).kill('SIGTERM')).toBe(0);
        continue;
      }
      const ran = await blankwright(words, cwd);
      expect([name, ran.code, ran.err]).toEqual([name, 0, '']);
    }
  });

  test('on the first page', async () => {
    expect((await blankwright(exampleOf(await helpOf()), tempFolder())).code).toBe(0);
  });

  test.each(inTurns([...FAMILIES.keys()], 1, 4))(
    'of make %s: the first example of the family',
    async (family) => {
      const words = exampleOf(await helpOf('make', family));
      expect(words.slice(0, 2)).toEqual(['make', family]);
      expect((await blankwright(words, tempFolder())).code).toBe(0);
      expect(exampleOf(await helpOf('plan', family)).slice(0, 2)).toEqual(['plan', family]);
    },
  );
});

test('a command on families says where their inputs are', async () => {
  for (const name of ['make', 'plan'])
    expect((await helpOf(name)).replace(/\s+/g, ' ')).toContain(
      `blankwright describe FAMILY gives the inputs of one, with a drawing; blankwright ${name} FAMILY --help lists them as flags.`,
    );
  expect((await helpOf('describe')).replace(/\s+/g, ' ')).toContain(
    'blankwright list names the families.',
  );
});

test('pages keep to a narrow terminal', async () => {
  const before = process.env['COLUMNS'];
  process.env['COLUMNS'] = '44';
  onTestFinished(() => {
    if (before === undefined) delete process.env['COLUMNS'];
    else process.env['COLUMNS'] = before;
  });
  for (const words of [
    ['list'],
    ['make', 'ring', '--help'],
    ['bend', '--help'],
    ['describe', 'ring'],
    ['reason'],
    ['reason', 'hole-near-bend'],
  ]) {
    const page = (await blankwright(words, tempFolder())).out;
    // Drawings and commands to be pasted are as wide as they are.
    const texts =
      page
        .replace(/^ring: [^]*?(?=\nInputs of this family)/, '')
        .split(/\nExamples?:?\n/)[0]
        ?.split('\n') ?? [];
    expect(texts.length).toBeGreaterThan(10);
    expect(texts.filter((line) => line.length > 46)).toEqual([]);
  }
});
