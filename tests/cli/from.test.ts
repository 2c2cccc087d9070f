import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  blankwright,
  contents,
  json,
  names,
  type Problems,
  tempFolder,
} from '../helpers/command.ts';
import type { MakeResult } from '../../src/contract/part.ts';
import { fileNames } from '../helpers/file-names.ts';

const INPUTS =
  'legA: 60\nleg-b: 2 1/2"\nwidth: 80\nthickness: 3\nradius: 3\nholesA:\n  - {across: 35, along: 20, size: M8}\n  - {across: 35, along: 60, size: 8x20}\n';

const makeFrom = async (
  text: string | Uint8Array,
  more: readonly string[] = [],
  name = 'inputs.yaml',
) => {
  const cwd = tempFolder();
  writeFileSync(join(cwd, name), text);
  const ran = await blankwright(['make', 'bracket-angle', '--from', name, ...more], cwd);
  return { ...ran, files: contents(join(cwd, 'out')), all: names(cwd) };
};

describe('inputs from a file', () => {
  test('YAML, JSON and flags say the same, and make the same', async () => {
    const asJson = JSON.stringify({
      legA: 60,
      legB: '63.5',
      width: '80mm',
      thickness: 3,
      radius: 3,
      holesA: '35,20,M8; 35,60,8x20',
    });
    const cwd = tempFolder();
    const [yaml, other, flags] = await Promise.all([
      makeFrom(INPUTS),
      makeFrom(asJson, [], 'inputs.json'),
      blankwright(
        'make bracket-angle --leg-a 60 --leg-b 63.5 --width 80 --thickness 3 --radius 3 --holes-a 35,20,M8;35,60,8x20'.split(
          ' ',
        ),
        cwd,
      ),
    ]);
    expect([yaml.code, other.code, flags.code]).toEqual([0, 0, 0]);
    expect(Object.keys(yaml.files)).toHaveLength(fileNames('').length);
    expect(other.files).toEqual(yaml.files);
    expect(contents(join(cwd, 'out'))).toEqual(yaml.files);
  });

  test('flags win, whichever way the file spells the name', async () => {
    for (const spelling of ['legB', 'leg-b']) {
      const ran = await makeFrom(INPUTS.replace('leg-b', spelling), [
        '--leg-b',
        '40',
        '--leg-a',
        '50',
        '--json',
      ]);
      const { parts } = json<MakeResult>(ran);
      expect(parts[0]?.folded?.sizeMm.toSorted((a, b) => a - b)).toEqual(
        [40, 50, 80].map((n) => expect.closeTo(n, 6)),
      );
    }
  });

  test('a flag saves an input that is wrong in the file', async () => {
    expect((await makeFrom(INPUTS.replace('60', "'1,5'"), ['--leg-a', '60'])).code).toBe(0);
  });

  test('a file may name its family, but no other one', async () => {
    expect((await makeFrom(`family: bracket-angle\n${INPUTS}`)).code).toBe(0);
    const other = await makeFrom(`family: bracket-zed\n${INPUTS}`);
    expect([other.code, other.files]).toEqual([2, {}]);
    expect(other.err).toContain('bracket-zed');
    expect(other.err).toContain('bracket-angle');
  });

  test('YAML knows numbers of its own, which are read as such: 0x3C is 60', async () => {
    const ran = await makeFrom(INPUTS.replace('legA: 60', 'legA: 0x3C'), ['--json']);
    expect(json<MakeResult>(ran).parts[0]?.folded?.sizeMm).toContainEqual(expect.closeTo(60, 6));
  });
});

const deep = (open: string, n: number, close = ''): string =>
  `legA: ${open.repeat(n)}${close.repeat(n)}\n`;

/** Files nobody can make a part of, and what the message says. */
const WRONG: readonly {
  readonly name: string;
  readonly text: string | Uint8Array;
  readonly says: readonly string[];
}[] = [
  {
    name: 'a syntax error: line and column',
    text: 'legA: 60\nlegB: [40\nwidth: 80\n',
    says: ['from', 'inputs.yaml', 'line 3', 'column'],
  },
  { name: 'a tab for an indent', text: 'holesA:\n\t- 1\n', says: ['from', 'line 2', 'column 1'] },
  {
    name: 'a name given twice',
    text: `legA: 60\nlegA: 61\n${INPUTS.slice(9)}`,
    says: ['from', 'line 2', 'column 1', 'a second time'],
  },
  {
    name: 'a name given twice in two spellings',
    text: `${INPUTS}legB: 40\n`,
    says: ['legB', 'twice', 'one of the two'],
  },
  { name: 'two documents', text: `${INPUTS}---\n${INPUTS}`, says: ['from', 'document'] },
  { name: 'a list', text: '- 60\n- 40\n', says: ['from', 'a list', 'name: value'] },
  { name: 'a word', text: 'bracket', says: ['from', 'a single value', 'legA: 60'] },
  { name: 'nothing', text: '', says: ['from', 'nothing', 'legA: 60'] },
  {
    name: 'a name no family knows',
    text: `${INPUTS}legC: 4\n`,
    says: ['legC', 'legA', 'did you mean'],
  },
  {
    name: 'a name every object has',
    text: `${INPUTS}__proto__: {polluted: 1}\n`,
    says: ['from', '__proto__', 'leave it out'],
  },
  {
    name: 'a name every function has',
    text: `${INPUTS}constructor: 1\n`,
    says: ['constructor', 'describe bracket-angle'],
  },
  { name: 'not a number', text: INPUTS.replace('60', '.nan'), says: ['legA', 'NaN', '1 to 6000'] },
  { name: 'no end', text: INPUTS.replace('60', '.inf'), says: ['legA', 'Infinity', '1 to 6000'] },
  {
    name: 'more than any number holds',
    text: INPUTS.replace('60', '1e400'),
    says: ["legA: given '1e400'", 'without end'],
  },
  {
    name: 'more than any number holds, below nothing',
    text: INPUTS.replace('60', '-1e999'),
    says: ["legA: given '-1e999'"],
  },
  { name: 'a decimal comma', text: INPUTS.replace('60', '1,5'), says: ['legA', '1,5', '1.5'] },
  { name: 'a list for a length', text: INPUTS.replace('60', '[60]'), says: ['legA', '1 to 6000'] },
  { name: 'nothing for a length', text: INPUTS.replace('60', ''), says: ['legA', '1 to 6000'] },
  {
    name: 'a truth for a length',
    text: INPUTS.replace('60', 'true'),
    says: ['legA', 'true', '1 to 6000'],
  },
  {
    name: 'a hole with a name nobody knows',
    text: INPUTS.replace('across', 'acros'),
    says: ['holesA', 'acros'],
  },
  {
    name: 'bytes that are no text',
    text: new Uint8Array([0x6c, 0xff, 0xfe, 0x00]),
    says: ['from', 'UTF-8'],
  },
  {
    name: 'too large a file',
    text: `# ${'x'.repeat(100_001)}\n${INPUTS}`,
    says: ['from', '100000 bytes'],
  },
  {
    name: 'as many names as fit',
    text: Array.from({ length: 10_000 }, (_, i) => `a${i}: 1\n`).join(''),
    says: ['a0: given 1', '... and 9984 more'],
  },
  { name: 'brackets without end', text: deep('[', 90_000), says: ['from', 'nested'] },
  { name: 'brackets that end', text: deep('[', 20_000, ']'), says: ['from', 'nested'] },
  { name: 'braces without end', text: deep('{a: ', 20_000), says: ['from', 'nested'] },
  {
    name: 'dashes without end',
    text: `legA:\n  ${'- '.repeat(40_000)}1\n`,
    says: ['from', 'nested'],
  },
  { name: 'questions without end', text: `${'? '.repeat(40_000)}1\n`, says: ['from', 'nested'] },
  {
    name: 'indents without end',
    text: Array.from({ length: 400 }, (_, i) => `${' '.repeat(i)}a:`).join('\n'),
    says: ['from', 'nested'],
  },
  {
    name: 'aliases that multiply',
    text: `a: &a [x,x,x,x,x,x,x,x,x]\n${'bcdefgh'.replace(
      /./g,
      (c, i: number) =>
        `${c}: &${c} [${Array(9)
          .fill(`*${'abcdefg'[i] ?? ''}`)
          .join(',')}]\n`,
    )}`,
    says: ['from', 'alias'],
  },
  { name: 'an alias to nothing', text: 'legA: *nowhere\n', says: ['from', 'nowhere'] },
];

describe('files that cannot be used: exit 2, in words, no file', () => {
  test.each(WRONG)('$name', async ({ text, says }) => {
    const { code, out, err, all } = await makeFrom(text);
    expect([code, out, all]).toEqual([2, '', ['inputs.yaml']]);
    const said = err.toLowerCase();
    for (const word of says) expect(said).toContain(word.toLowerCase());
    expect(err).not.toMatch(/^\s+at /m);
  });

  test('however much is wrong, no more is told than anybody reads; --json tells all', async () => {
    const text = Array.from({ length: 9000 }, (_, i) => `a${i}: 1\n`).join('');
    const [said, listed] = [await makeFrom(text), await makeFrom(text, ['--json'])];
    expect([said.code, said.err.trimEnd().split('\n').length]).toEqual([2, 21]);
    // Four of the part's own inputs are missing beside the names that are not known.
    expect([listed.code, json<Problems>(listed).problems.length]).toEqual([2, 9004]);
  });

  test.each([
    ['a file that is not there', 'nosuch.yaml'],
    ['a folder', 'folder'],
    ['a way through a file', 'inputs.yaml/deeper'],
  ])('%s', async (_, from) => {
    const cwd = tempFolder();
    mkdirSync(join(cwd, 'folder'));
    writeFileSync(join(cwd, 'inputs.yaml'), INPUTS);
    const ran = await blankwright(['make', 'bracket-angle', '--from', from, '--json'], cwd);
    expect(ran.code).toBe(2);
    const [problem] = json<Problems>(ran).problems;
    expect(problem).toMatchObject({
      input: 'from',
      given: expect.stringContaining(from) as string,
    });
    // Another folder to write to is no help to whoever wants to read.
    expect(problem?.mend).not.toContain('--out');
    expect(names(cwd)).toEqual(['folder', 'inputs.yaml']);
  });
});
