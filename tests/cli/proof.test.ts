import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { BRACKET, blankwright, json, type Problems, tempFolder } from '../helpers/command.ts';

interface Printed {
  readonly worstMm: number;
  readonly measures: readonly {
    readonly name: string;
    readonly askedMm: number;
    readonly foundMm: number | null;
  }[];
  readonly findings: readonly { readonly rule: string }[];
}

const made = async (): Promise<string> => {
  const cwd = tempFolder();
  const ran = await blankwright(
    [...BRACKET, '--holes-a', '35,20,M8', '--hand', 'both', '--json'],
    cwd,
  );
  expect(ran.code).toBe(0);
  writeFileSync(join(cwd, 'part.json'), ran.out);
  return cwd;
};

test('proof: a file as it was made, edited, and in words', async () => {
  const cwd = await made();
  const good = await blankwright(
    'proof out/bracket-angle-L.dxf --part part.json --json'.split(' '),
    cwd,
  );
  expect([good.code, good.err]).toEqual([0, '']);
  expect(json<Printed>(good).worstMm).toBeLessThan(0.001);
  expect(json<Printed>(good).measures.map((m) => m.name)).toEqual(
    expect.arrayContaining(['leg A', 'leg B', 'diameter of hole holesA 1']),
  );
  const file = join(cwd, 'out', 'bracket-angle-L.dxf');
  writeFileSync(file, readFileSync(file, 'utf8').replace(/(CIRCLE[^]*?\n40\n)4.5\n/, '$15\n'));
  const bad = await blankwright('proof out/bracket-angle-L.dxf --part part.json'.split(' '), cwd);
  expect(bad.code).toBe(1);
  expect(bad.out).toMatch(/diameter of h1 \(holesA 1\) +9\.000 +10\.000 +1\.000 <--/);
  // One hand's file against the other hand's part.
  writeFileSync(
    join(cwd, 'one.json'),
    JSON.stringify(
      (JSON.parse(readFileSync(join(cwd, 'part.json'), 'utf8')) as { parts: unknown[] }).parts[0],
    ),
  );
  const other = await blankwright(
    'proof out/bracket-angle-R.dxf --part one.json --json'.split(' '),
    cwd,
  );
  expect([other.code, json<Printed>(other).findings.map((f) => f.rule)]).toEqual([
    1,
    ['file-mirrored'],
  ]);
});

test('proof: wrong files are wrong input', async () => {
  const cwd = await made();
  writeFileSync(join(cwd, 'notes.txt'), 'no drawing\nat all\n');
  for (const line of [
    'proof',
    'proof out/bracket-angle-L.dxf',
    'proof nosuch.dxf --part part.json',
    'proof notes.txt --part part.json',
    'proof out/bracket-angle-L.dxf --part notes.txt',
    'proof out/bracket-angle-L.dxf --part nosuch.json',
    'proof notes.txt --part part.json --nosuch',
  ]) {
    const ran = await blankwright([...line.split(' '), '--json'], cwd);
    expect([line, ran.code, ran.err]).toEqual([line, 2, '']);
    expect(json<Problems>(ran).problems.length).toBeGreaterThan(0);
  }
});

test.each([
  ['{"name":"x"}', 'which holds no part: material is missing'],
  [
    '{"name":"x","material":{"thicknessMm":"3"},"bends":[]}',
    'which holds no part: material.thicknessMm is "3"',
  ],
  ['[1]', 'which holds a list'],
  ['null', 'which holds nothing'],
  ['3', 'which holds a single value'],
  [
    '{"parts":[{"name":"x","material":{"thicknessMm":3},"bends":[{"id":"A"}]}]}',
    'which holds no part: bends[0].angleDeg is missing',
  ],
])('proof --part: %s is told in words', async (text, says) => {
  const cwd = tempFolder();
  writeFileSync(join(cwd, 'x.dxf'), 'x');
  writeFileSync(join(cwd, 'part.json'), text);
  const ran = await blankwright('proof x.dxf --part part.json --json'.split(' '), cwd);
  expect([ran.code, json<Problems>(ran).problems[0]?.given]).toEqual([2, `part.json, ${says}`]);
});
