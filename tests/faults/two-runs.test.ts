import {
  lutimesSync,
  readdirSync,
  readFileSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { JobResult } from '../../src/contract/job.ts';
import { BRACKET, runProcess, json, type Ran, tempFolder } from '../helpers/command.ts';
import { type Ended, everything, isPassing, ring, ringJob, withFault } from '../helpers/faults.ts';

const RINGS = ['cover', 'lid', 'seal'].map((name, i) => ring(name, 100 + i));
const FOLDER = join('out', 'cart');

/** Each run made all of it, or was told that another has the folder. */
const expectTold = (ran: Ran): void => {
  expect([0, 2]).toContain(ran.code);
  expect(ran.err).toMatch(
    ran.code === 0
      ? /^$/
      : /^out: given [^\n]*into which another run \(process \d+\) is writing[^\n]*\n$/,
  );
};

describe('several runs into one folder at once', () => {
  test.each([
    ['the same job', ringJob(RINGS)],
    ['another job of the same title', ringJob([...RINGS.slice(1), ring('cap', 140)])],
  ])('%s', async (_, other) => {
    const [cwd, alone] = [tempFolder(), tempFolder()];
    writeFileSync(join(cwd, 'a.yaml'), ringJob(RINGS));
    writeFileSync(join(cwd, 'b.yaml'), other);
    const wanted: Record<string, string>[] = [];
    for (const text of [ringJob(RINGS), other]) {
      writeFileSync(join(alone, 'job.yaml'), text);
      await runProcess(['job', 'job.yaml'], alone);
      wanted.push(everything(join(alone, FOLDER)));
    }
    // A lock that was left behind, which all of them try to take over.
    await runProcess(['job', 'a.yaml'], cwd);
    writeFileSync(join(cwd, FOLDER, '.running'), '999999999');
    const ran = await Promise.all(
      ['a', 'b', 'a'].map((name) => runProcess(['job', `${name}.yaml`, '--all'], cwd)),
    );
    ran.forEach(expectTold);
    expect(ran.map((r) => r.code)).toContain(0);
    const left = everything(join(cwd, FOLDER));
    expect(Object.keys(left).filter(isPassing)).toEqual([]);
    expect(wanted).toContainEqual(left);
    const again = await runProcess(['job', 'b.yaml'], cwd);
    expect([again.code, everything(join(cwd, FOLDER))]).toEqual([0, wanted[1]]);
  });

  test('two parts of one name, and one part twice: whole files of either', async () => {
    const cwd = tempFolder();
    const other = BRACKET.with(3, '70');
    const texts: Record<string, string>[] = [];
    for (const [args, out] of [
      [BRACKET, 'one'],
      [other, 'two'],
    ] as const) {
      await runProcess([...args, '--out', out], cwd);
      texts.push(everything(join(cwd, out)));
    }
    const ran = await Promise.all([BRACKET, other, BRACKET].map((args) => runProcess(args, cwd)));
    expect(ran.map((r) => [r.code, r.err])).toEqual(ran.map(() => [0, '']));
    const left = everything(join(cwd, 'out'));
    expect(Object.keys(left)).toEqual(Object.keys(texts[0] ?? {}));
    for (const [name, text] of Object.entries(left))
      expect(texts.map((t) => t[name])).toContain(text);
  });
});

test('the lock of a run that goes on elsewhere is not broken, and one that is empty is', async () => {
  const cwd = tempFolder();
  writeFileSync(join(cwd, 'a.yaml'), ringJob(RINGS.slice(0, 1)));
  await runProcess(['job', 'a.yaml'], cwd);
  const lock = join(cwd, FOLDER, '.running');
  writeFileSync(lock, String(process.pid));
  expectTold(await runProcess(['job', 'a.yaml'], cwd));
  expect(readFileSync(lock, 'utf8')).toBe(String(process.pid));
  writeFileSync(lock, 'my notes');
  expect(await runProcess(['job', 'a.yaml'], cwd)).toMatchObject({
    code: 2,
    err: expect.stringContaining('.running, which this command did not make'),
  });
  expect(readFileSync(lock, 'utf8')).toBe('my notes');
  writeFileSync(lock, '');
  expect((await runProcess(['job', 'a.yaml'], cwd)).code).toBe(0);
});

test('a disk that knows no second names for files, as that of a memory stick, is locked too', async () => {
  const cwd = tempFolder();
  writeFileSync(join(cwd, 'a.yaml'), ringJob(RINGS.slice(0, 1)));
  const run = (): Promise<Ended> => withFault(['job', 'a.yaml'], cwd, { kind: 'EPERM', at: 1 });
  expect((await run()).code).toBe(0);
  const clean = everything(join(cwd, FOLDER));
  for (const [owner, code] of [
    ['999999999', 0],
    [String(process.pid), 2],
  ] as const) {
    writeFileSync(join(cwd, FOLDER, '.running'), owner);
    expect((await run()).code).toBe(code);
    expect(everything(join(cwd, FOLDER))).toEqual(
      code === 0 ? clean : { ...clean, '.running': owner },
    );
  }
});

describe('clocks are not asked', () => {
  const statusOf = (ran: Ran): string[] => json<JobResult>(ran).parts.map((p) => p.status);

  /** Sets the times of all that stands in a folder to those of a clock that has gone back since. */
  const dated = (folder: string): void => {
    const when = new Date('2099-01-01');
    for (const path of readdirSync(folder, { recursive: true, encoding: 'utf8' }))
      lutimesSync(join(folder, path), when, when);
  };

  test('files from a future year are made again where their inputs or their bytes differ, and not else', async () => {
    const cwd = tempFolder();
    const run = (): Promise<Ran> => runProcess(['job', 'a.yaml', '--json'], cwd);
    writeFileSync(join(cwd, 'a.yaml'), ringJob(RINGS));
    await run();
    dated(cwd);
    expect(statusOf(await run())).toEqual(['unchanged', 'unchanged', 'unchanged']);
    writeFileSync(join(cwd, 'a.yaml'), ringJob(RINGS).replace('outer: 101', 'outer: 131'));
    dated(cwd);
    expect(statusOf(await run())).toEqual(['unchanged', 'made', 'unchanged']);
    // One byte of the same length, at the same time.
    const file = join(cwd, FOLDER, 'seal', 'seal.dxf');
    const { atime, mtime } = statSync(file);
    writeFileSync(file, readFileSync(file, 'latin1').replace('OUTLINE', 'outline'));
    utimesSync(file, atime, mtime);
    expect(statusOf(await run())).toEqual(['unchanged', 'unchanged', 'refused']);
  });
});
