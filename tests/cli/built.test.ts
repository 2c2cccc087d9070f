import { execFileSync } from 'node:child_process';
import {
  chmodSync,
  chownSync,
  copyFileSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, test } from 'vitest';
import { BRACKET, runProcess, contents, tempFolder } from '../helpers/command.ts';
import { inTurns } from '../helpers/extent.ts';

/** The command's own files, copied to where the packages it was bundled from cannot be found. */
const installed = (): string => {
  const folder = join(tempFolder(), 'dist');
  mkdirSync(folder);
  for (const name of ['blankwright.cjs', 'cli.cjs'])
    copyFileSync(join('dist', name), join(folder, name));
  return folder;
};

describe('the bundle', () => {
  test('works alone, in a folder that cannot be written to', async () => {
    const folder = installed();
    for (const name of readdirSync(folder)) chmodSync(join(folder, name), 0o444);
    chmodSync(folder, 0o555);
    const before = contents(folder);
    const program = join(folder, 'blankwright.cjs');
    const cwd = tempFolder();
    const [made, sums, help] = await Promise.all([
      runProcess(BRACKET, cwd, program),
      runProcess(['bend', '--thickness', '3'], cwd, program),
      runProcess(['make', 'bracket-hat', '--help'], cwd, program),
    ]);
    expect([made.code, made.err, sums.code, sums.err, help.code, help.err]).toEqual([
      0,
      '',
      0,
      '',
      0,
      '',
    ]);
    const usual = tempFolder();
    await runProcess(BRACKET, usual);
    expect(contents(join(cwd, 'out'))).toEqual(contents(join(usual, 'out')));
    expect(contents(folder)).toEqual(before);
    chmodSync(folder, 0o755);
  });

  test('takes other flags of Node, which its compiled code was not made for', () => {
    for (const flags of [[], ['--no-opt', '--stack-size=500'], []]) {
      const out = execFileSync(
        process.execPath,
        [...flags, resolve('dist/blankwright.cjs'), '--version'],
        { encoding: 'utf8' },
      );
      expect(out).toMatch(/^\d+\.\d+\.\d+\n$/);
    }
  });

  test('runs through a link, as package managers install it', async () => {
    const cwd = tempFolder();
    symlinkSync(resolve('dist/blankwright.cjs'), join(cwd, 'blankwright'));
    expect((await runProcess(['--version'], cwd, join(cwd, 'blankwright'))).code).toBe(0);
  });
});

/** A folder for compiled code, and a run of the command that uses it and no other. */
const withCache = (program = resolve('dist/blankwright.cjs')) => {
  const home = tempFolder();
  const run = (env: NodeJS.ProcessEnv = {}): string =>
    execFileSync(process.execPath, [program, '--version'], {
      encoding: 'utf8',
      env: { ...process.env, XDG_CACHE_HOME: home, ...env },
    });
  const folder = join(home, 'blankwright');
  const path = (): string => {
    const [name, ...others] = readdirSync(folder);
    expect(others).toEqual([]);
    return join(folder, name as string);
  };
  return { home, folder, path, run, written: () => lstatSync(path()).ino };
};

const VERSION_TEXT = /^0\.1\.0\n$/;

describe('code that was compiled before', () => {
  test('is written by the first run that ends well, for this user alone, and left alone by the next', () => {
    const { folder, path, run, written } = withCache();
    expect(run()).toMatch(VERSION_TEXT);
    expect([lstatSync(folder).mode & 0o777, lstatSync(path()).mode & 0o777]).toEqual([
      0o700, 0o600,
    ]);
    const first = written();
    expect(run()).toMatch(VERSION_TEXT);
    expect(written()).toBe(first);
  });

  // V8 itself notices a length that is wrong, but neither a byte nor whose file it is.
  test.each(
    inTurns<readonly [string, (path: string) => void]>(
      [
        ['cut short', (path) => writeFileSync(path, readFileSync(path).subarray(0, 5000))],
        ['empty', (path) => writeFileSync(path, '')],
        ['something else', (path) => writeFileSync(path, 'x'.repeat(100_000))],
        [
          'changed in one byte',
          (path) =>
            writeFileSync(
              path,
              readFileSync(path).map((byte, i, all) => (i === all.length >> 1 ? byte ^ 1 : byte)),
            ),
        ],
        ['writable by others', (path) => chmodSync(path, 0o622)],
        [
          'a link to elsewhere',
          (path) => {
            renameSync(path, `${path}.moved`);
            symlinkSync(`${path}.moved`, path);
          },
        ],
      ],
      0,
      3,
    ),
  )('%s, is not taken, and written anew', (_, spoil) => {
    const { folder, run } = withCache();
    run();
    const name = readdirSync(folder)[0] as string;
    const sound = readFileSync(join(folder, name));
    spoil(join(folder, name));
    const spoilt = lstatSync(join(folder, name)).ino;
    expect(run()).toMatch(VERSION_TEXT);
    expect(lstatSync(join(folder, name)).isFile()).toBe(true);
    expect(lstatSync(join(folder, name)).ino).not.toBe(spoilt);
    expect(Math.abs(readFileSync(join(folder, name)).length - sound.length)).toBeLessThan(
      sound.length / 10,
    );
  });

  test('of another text of the same length does not run', () => {
    const dist = installed();
    const { folder, run } = withCache(join(dist, 'blankwright.cjs'));
    expect(run()).toMatch(VERSION_TEXT);
    const program = join(dist, 'cli.cjs');
    const text = readFileSync(program, 'utf8');
    expect(text.split('"0.1.0"')).toHaveLength(2);
    writeFileSync(program, text.replace('"0.1.0"', '"9.9.9"'));
    expect(run()).toBe('9.9.9\n');
    expect(readdirSync(folder)).toHaveLength(2);
  });

  test('of three texts at most is kept', () => {
    const dist = installed();
    const { folder, run } = withCache(join(dist, 'blankwright.cjs'));
    const text = readFileSync(join(dist, 'cli.cjs'), 'utf8');
    for (const version of ['1.0.0', '2.0.0', '3.0.0', '4.0.0']) {
      writeFileSync(join(dist, 'cli.cjs'), text.replace('"0.1.0"', `"${version}"`));
      expect(run()).toBe(`${version}\n`);
    }
    expect(readdirSync(folder)).toHaveLength(3);
  });

  test('is neither looked for nor written where Node is asked not to', () => {
    const { home, run } = withCache();
    expect(run({ NODE_DISABLE_COMPILE_CACHE: '1' })).toMatch(VERSION_TEXT);
    expect(readdirSync(home)).toEqual([]);
  });

  test.each<readonly [string, (folder: string) => void]>([
    ['a file', (folder) => writeFileSync(folder, 'mine')],
    ['a link', (folder) => symlinkSync(tempFolder(), folder)],
    [
      'open to everybody',
      (folder) => chmodSync(mkdirSync(folder, { recursive: true }) as string, 0o777),
    ],
  ])('is not written where its folder is %s', (_, place) => {
    const { folder, run } = withCache();
    place(folder);
    const before = lstatSync(folder);
    expect(run()).toMatch(VERSION_TEXT);
    expect(lstatSync(folder)).toMatchObject({ ino: before.ino, mode: before.mode });
    if (lstatSync(folder).isDirectory()) expect(readdirSync(folder)).toEqual([]);
  });

  test('is not written into the folder of another user, nor taken from there', () => {
    // The tests may run as root, who may write anywhere.
    const isRoot = process.geteuid?.() === 0;
    const { home, folder, path, run } = withCache();
    run();
    const own = path();
    if (isRoot) {
      chownSync(own, 12345, 12345);
      chownSync(folder, 12345, 12345);
      const before = lstatSync(own);
      expect(run()).toMatch(VERSION_TEXT);
      expect(lstatSync(own)).toMatchObject({ ino: before.ino, mtimeMs: before.mtimeMs });
      rmSync(folder, { recursive: true });
      chownSync(home, 12345, 12345);
      expect(run()).toMatch(VERSION_TEXT);
      expect(readdirSync(home)).toEqual([]);
    } else {
      expect(run({ XDG_CACHE_HOME: '/usr' })).toMatch(VERSION_TEXT);
    }
  });

  test.each([
    { XDG_CACHE_HOME: '/dev/null/nowhere' },
    { XDG_CACHE_HOME: 'relative', HOME: '' },
    { XDG_CACHE_HOME: '', HOME: '/dev/null' },
  ])('matters to nobody where there is no folder for it: %j', (env) => {
    expect(withCache().run(env)).toMatch(VERSION_TEXT);
  });
});

test('the library makes what the command makes', async () => {
  interface Library {
    readonly makeParts: (typeof import('../../src/index.ts'))['makeParts'];
    readonly FAMILIES: (typeof import('../../src/index.ts'))['FAMILIES'];
  }
  const { makeParts, FAMILIES } = (await import(
    pathToFileURL(resolve('dist/index.js')).href
  )) as Library;
  const inputs = { legA: 60, legB: 40, width: 80, material: 's275', thickness: 3, radius: 3 };
  const made = makeParts(await FAMILIES['bracket-angle'](), inputs);
  const files = made.ok ? (made.parts[0]?.files() ?? []) : [];
  const cwd = tempFolder();
  await runProcess(BRACKET, cwd);
  expect(Object.fromEntries(files.map((f) => [f.name, f.contents]))).toEqual(
    contents(join(cwd, 'out')),
  );
});
