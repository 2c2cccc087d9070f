import { expect, test } from 'vitest';
import { BRACKET, blankwright, json, type Problems, tempFolder } from '../helpers/command.ts';

const make = (...flags: string[]) => blankwright([...BRACKET, ...flags], tempFolder());

test('without a word on it there is no fit', async () => {
  const [text, doc] = await Promise.all([make(), make('--json')]);
  expect(text.out).not.toContain('likely to fit');
  expect(json<{ parts: { fit: unknown }[] }>(doc).parts.map((p) => p.fit)).toEqual([null]);
});

test('a sheet that asks for the fit has it; of it the command tells whether the bolts go in', async () => {
  const ran = await make('--papers', 'sheet', '--holes-a', '35,20,M8; 35,60,M8');
  expect(ran.out).not.toContain('likely to fit');
  expect(ran.out).toMatch(/^ {2}bolts {2}M8 through h1 \(holesA 1\), h2 \(holesA 2\): all go in/m);
});

test('what holds for both hands is told with the first', async () => {
  const ran = await make('--hand', 'both', '--holes-a', '35,20,M8; 12,48,M8');
  const [left = '', right = ''] = ran.out.split(/^(?=bracket-angle-R)/m);
  expect(left).toContain('[hole-near-bend]');
  expect(right).not.toContain('[hole-near-bend]');
  expect(right).toMatch(/^ {2}warn {3}(?:one|\d+) as of bracket-angle-L$/m);
});

test('--fit prints a table of measures, causes and what it was reckoned with', async () => {
  const ran = await make('--fit', '--holes-a', '35,20,M8; 35,60,M8');
  expect([ran.code, ran.err]).toEqual([0, '']);
  expect(ran.out).toMatch(/^[\x20-\x7e±\n]*$/);
  expect(ran.out).toMatch(/^ {2}measure +asked +expected +± +at worst {2}from$/m);
  expect(ran.out).toMatch(
    /^ {2}leg A +60 +60 +0\.\d+ +1\.\d+ {2}where\s+the\s+fold\s+lands\s+\d+\s+%,/m,
  );
  expect(ran.out).toMatch(
    /^ {2}h1 \(holesA 1\)(?: to(?: h2(?: \(holesA 2\))?)?)? +40 +40 +0\.7 +0\.99 {2}cutting(?: 100 %)?$/m,
  );
  expect(ran.out).toMatch(
    /^ {2}bolts {2}M8 through h1 \(holesA 1\), h2 \(holesA 2\): all go in with a chance of 99 %/m,
  );
  expect(ran.out).toContain('EN 10051, category A');
  // A table fits its window: no line runs on for ever.
  expect(
    Math.max(
      ...ran.out
        .split('\n')
        .filter((line) => /^ {2}(?:leg|hole|width|angle)/.test(line))
        .map((line) => line.length),
    ),
  ).toBeLessThan(170);
});

test('--tolerance and --measured-with ask for it too', async () => {
  const [tolerance, tape] = await Promise.all([
    make('--tolerance', 'm'),
    make('--measured-with', 'Tape'),
  ]);
  expect(tolerance.out).toMatch(/^ {2}leg A .* m ±0\.3 +\d+ %/m);
  expect(tape.out).toMatch(/^ {2}leg A [^]*?measuring\s+with\s+the\s+tape\s+\d+\s+%/m);
});

test('an input with how far it may be off', async () => {
  const ran = await blankwright(
    [
      ...BRACKET.filter((_, i) => BRACKET[i - 1] !== '--leg-a' && BRACKET[i] !== '--leg-a'),
      '--leg-a',
      '60+-1',
      '--fit',
    ],
    tempFolder(),
  );
  expect(ran.out).toMatch(/^ {2}leg A +60 +60 +1\.\d+ .*measuring legA \d+ %/m);
});

test.each([
  [['--tolerance', 'x'], { input: 'tolerance', given: "'x'", allowed: 'one of f, m, c, v' }],
  [
    ['--measured-with', 'string'],
    { input: 'measured-with', given: "'string'", allowed: 'one of tape, rule, calliper' },
  ],
])('%j is told', async (flags, problem) => {
  const ran = await make(...flags, '--json');
  expect([ran.code, json<Problems>(ran).problems]).toEqual([2, [problem]]);
});

test('a part that is stopped has no fit', async () => {
  const ran = await make('--fit', '--rule', 'measured', '--json');
  expect(ran.code).toBe(1);
  expect(json<{ parts: { fit: unknown }[] }>(ran).parts.map((p) => p.fit)).toEqual([null]);
});
