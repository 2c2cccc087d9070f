import { execFileSync } from 'node:child_process';
import { chmodSync, copyFileSync, mkdirSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, test } from 'vitest';
import { BRACKET, blankwright, contents, tempFolder } from '../helpers/command.ts';

/** The command's own files, copied to where the packages it was bundled from cannot be found. */
const installed = (): string => {
  const folder = join(tempFolder(), 'dist');
  mkdirSync(folder);
  for (const name of ['blankwright.cjs', 'cli.cjs', 'cli.cache']) copyFileSync(join('dist', name), join(folder, name));
  return folder;
};

const CACHE = 'cli.cache';

describe('the bundle', () => {
  test.each<readonly [string, (folder: string) => void]>([
    ['as it was built', () => {}],
    ['without its compiled code', (folder) => rmSync(join(folder, CACHE))],
    ['with compiled code of something else', (folder) => writeFileSync(join(folder, CACHE), 'x'.repeat(100_000))],
    ['with compiled code cut short', (folder) => writeFileSync(join(folder, CACHE), readFileSync(join(folder, CACHE)).subarray(0, 5000))],
    ['with empty compiled code', (folder) => writeFileSync(join(folder, CACHE), '')],
    [
      'in a folder that cannot be written to',
      (folder) => {
        for (const name of readdirSync(folder)) chmodSync(join(folder, name), 0o444);
        chmodSync(folder, 0o555);
      },
    ],
  ])('works alone, %s', async (_, change) => {
    const folder = installed();
    change(folder);
    const before = contents(folder);
    const program = join(folder, 'blankwright.cjs');
    const cwd = tempFolder();
    const [made, sums, help] = await Promise.all([
      blankwright(BRACKET, cwd, program),
      blankwright(['bend', '--thickness', '3'], cwd, program),
      blankwright(['make', 'bracket-hat', '--help'], cwd, program),
    ]);
    expect([made.code, made.err, sums.code, sums.err, help.code, help.err]).toEqual([0, '', 0, '', 0, '']);
    const usual = tempFolder();
    await blankwright(BRACKET, usual);
    expect(contents(join(cwd, 'out'))).toEqual(contents(join(usual, 'out')));
    expect(contents(folder)).toEqual(before);
    chmodSync(folder, 0o755);
  });

  test('takes other flags of Node, which its compiled code was not made for', () => {
    const out = execFileSync(process.execPath, ['--no-opt', '--stack-size=500', resolve('dist/blankwright.cjs'), '--version'], { encoding: 'utf8' });
    expect(out).toMatch(/^\d+\.\d+\.\d+\n$/);
  });

  test('runs through a link, as package managers install it', async () => {
    const cwd = tempFolder();
    symlinkSync(resolve('dist/blankwright.cjs'), join(cwd, 'blankwright'));
    expect((await blankwright(['--version'], cwd, join(cwd, 'blankwright'))).code).toBe(0);
  });
});

test('the library makes what the command makes', async () => {
  interface Library {
    readonly makeParts: (typeof import('../../src/index.ts'))['makeParts'];
    readonly FAMILIES: (typeof import('../../src/index.ts'))['FAMILIES'];
  }
  const { makeParts, FAMILIES } = (await import(pathToFileURL(resolve('dist/index.js')).href)) as Library;
  const family = await FAMILIES.get('bracket-angle')?.();
  if (family === undefined) throw new Error('no such family');
  const inputs = { legA: 60, legB: 40, width: 80, material: 's275', thickness: 3, radius: 3 };
  const made = makeParts(family.default, inputs, { cutOnly: false, dxfVersion: 'r2000' });
  const files = made.ok ? (made.parts[0]?.files() ?? []) : [];
  const cwd = tempFolder();
  await blankwright(BRACKET, cwd);
  expect(Object.fromEntries(files.map((f) => [f.name, f.contents]))).toEqual(contents(join(cwd, 'out')));
});
