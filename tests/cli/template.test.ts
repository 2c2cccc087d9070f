import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { blankwright, json, names, type Problems, tempFolder } from '../helpers/command.ts';
import type { MakeResult } from '../../src/contract/part.ts';
import { fileNames } from '../helpers/file-names.ts';

/** A part family as a user writes it, in plain JavaScript. */
const PLATE = `import { defineTemplate, fields, stripPart } from 'blankwright/template';

export default defineTemplate({
  family: 'crate-stop',
  summary: 'A stop for the grape crates: a floor and a lip.',
  sketch: '\\n  |\\n  |___',
  inputs: {
    floor: fields.length({ about: 'The floor.', min: 10, max: 500, example: 50 }),
    lip: fields.length({ about: 'The lip.', min: 10, max: 500, default: 20 }),
    width: fields.length({ about: 'Along the fold.', min: 10, max: 500, example: 80 }),
    holesFloor: fields.holes({ about: 'Holes in the floor.' }),
  },
  cautions: ['sharp-edges'],
  examples: [{ title: 'Rear stop', inputs: { floor: 50, width: 80, thickness: 2 } }],
  build: (v) =>
    stripPart(
      v,
      v.width,
      [
        { id: 'floor', lengthMm: v.floor, holes: ['holesFloor', v.holesFloor] },
        { id: 'lip', lengthMm: v.lip, holes: ['', []] },
      ],
      [{ angleDeg: 90, direction: 'up' }],
      'floor',
    ),
});
`;

/** A project beside this one, with the package installed in it. */
const project = (template: string): string => {
  const cwd = tempFolder();
  mkdirSync(join(cwd, 'node_modules'));
  symlinkSync(resolve('.'), join(cwd, 'node_modules', 'blankwright'));
  writeFileSync(join(cwd, 'package.json'), '{"type":"module"}');
  writeFileSync(join(cwd, 'mine.js'), template);
  return cwd;
};

const ARGS =
  'make --template ./mine.js --floor 50 --width 80 --thickness 2 --holes-floor 25,40,M6 --json'.split(
    ' ',
  );

describe("a template of the user's own", () => {
  test('takes part in everything, and standard error says that its code runs', async () => {
    const cwd = project(PLATE);
    const runs = await Promise.all([
      blankwright(ARGS, cwd),
      blankwright(['make', 'crate-stop', ...ARGS.slice(1), '--out', 'other'], cwd),
      blankwright(['describe', '--template', './mine.js'], cwd),
      blankwright(['make', '--template', './mine.js', '--help'], cwd),
    ]);
    for (const { code, err } of runs)
      expect([code, err]).toEqual([
        0,
        'Running the template ./mine.js: its code runs with your rights.\n',
      ]);
    const [made, named, described, help] = runs;
    const part = json<MakeResult>(made).parts[0];
    expect(part?.folded?.sizeMm.toSorted((a, b) => a - b)).toEqual(
      [20, 50, 80].map((n) => expect.closeTo(n, 6)),
    );
    expect(part?.family).toBe('crate-stop');
    expect(names(join(cwd, 'out'))).toEqual(fileNames('crate-stop'));
    expect(json<MakeResult>(named).parts[0]?.blank).toEqual(part?.blank);
    expect(described.out).toContain('--holes-floor');
    expect(help.out).toContain('--floor');
  });

  test('its inputs are checked like those of any other', async () => {
    const cwd = project(PLATE);
    const ran = await blankwright(
      ['make', '--template=mine.js', '--floor', '1,5', '--width', '5', '--json'],
      cwd,
    );
    expect(ran.code).toBe(2);
    expect(json<Problems>(ran).problems.map((p) => p.input)).toEqual([
      'floor',
      'width',
      'thickness',
    ]);
    expect(names(cwd)).not.toContain('out');
  });

  const without = (part: RegExp): string => PLATE.replace(part, '');
  test.each([
    ['a file that is not there', undefined, 'cannot be loaded'],
    ['a syntax error', 'export default {', 'cannot be loaded'],
    ['a module that throws', "throw new Error('no sheet left');", 'no sheet left'],
    ['no default export', PLATE.replace('export default', 'export const x ='), 'no default export'],
    ['a default export that is a function', 'export default () => 0;', 'function'],
    ['no summary', without(/ {2}summary.*\n/), 'summary'],
    ['no inputs', without(/ {2}inputs: \{[^]*?\n {2}\},\n/), 'inputs'],
    ['no build', without(/ {2}build:[^]*?\n {4}\),\n/), 'build'],
    [
      'a field made by hand',
      PLATE.replace(/fields\.length\(\{ about: 'The lip.*?\}\)/, '{ type: 4 }'),
      'fields',
    ],
    ['a caution nobody knows', PLATE.replace('sharp-edges', 'sharp-edge'), 'sharp-edges'],
    [
      'an input all families have',
      PLATE.replace('floor:', 'thickness: fields.count({ about: "x", min: 1, max: 2 }), floor:'),
      'thickness',
    ],
    [
      'a build that throws',
      PLATE.replace('stripPart(', "(() => { throw new Error('oops'); })("),
      'oops',
    ],
    [
      'a build that gives nothing',
      PLATE.replace('stripPart(', '(() => undefined)('),
      'template.build; nothing; { part }',
    ],
    [
      'a build that gives an empty object',
      PLATE.replace('stripPart(', '(() => ({}))('),
      'neither a part nor pieces',
    ],
    [
      'a build that gives something else',
      PLATE.replace('stripPart(', "(() => ({ part: 'x' }))("),
      "template.build: part; 'x'",
    ],
    ['a build that promises', PLATE.replace('build: (v)', 'build: async (v)'), 'promise'],
  ])('%s: exit 2, in words', async (_, template, says) => {
    const cwd = template === undefined ? tempFolder() : project(template);
    const ran = await blankwright(ARGS, cwd);
    expect([ran.code, names(cwd).includes('out')]).toEqual([2, false]);
    const [problem] = json<Problems>(ran).problems;
    expect(problem?.input).toMatch(/^template(?:$|[.:])/);
    if (!problem?.input.startsWith('template.build')) expect(problem?.given).toContain('mine.js');
    expect(Object.values(problem ?? {}).join('; ')).toContain(says);
    expect(ran.err).not.toMatch(/^\s+at /m);
  });

  test('another name in front of it, and no name behind the flag', async () => {
    const cwd = project(PLATE);
    const [other, none] = await Promise.all([
      blankwright(['make', 'bracket-angle', ...ARGS.slice(1)], cwd),
      blankwright(['make', 'bracket-angle', '--template'], cwd),
    ]);
    expect([other.code, json<Problems>(other).problems[0]?.input]).toEqual([2, 'family']);
    expect(none.code).toBe(2);
    expect(none.err).toContain('--template');
  });
});
