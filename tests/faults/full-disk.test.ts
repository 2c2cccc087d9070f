import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, onTestFinished, test } from 'vitest';
import {
  BRACKET,
  blankwright,
  COMMAND,
  json,
  type Problems,
  type Ran,
  tempFolder,
} from '../helpers/command.ts';
import {
  everything,
  type FaultKind,
  filled,
  isPassing,
  once,
  ring,
  ringJob,
  withFault,
} from '../helpers/faults.ts';
import { fuzzRuns } from '../helpers/extent.ts';

const BEFORE = ringJob([ring('cover', 100), ring('lid', 110), ring('seal', 120)]);
const AFTER = ringJob([ring('cover', 101), ring('lid', 110), ring('washer', 130)]);
const FOLDER = join('out', 'cart');
const JOB = ['job', 'job.yaml'];

type Files = Readonly<Record<string, string>>;

const jobIn = (cwd: string, text: string): void => writeFileSync(join(cwd, 'job.yaml'), text);

/** What undisturbed runs leave, of the job as it was and as it is. */
const cleanRuns = once(
  async (): Promise<{ readonly before: Files; readonly after: Files; readonly calls: number }> => {
    const cwd = tempFolder();
    jobIn(cwd, BEFORE);
    await withFault(JOB, cwd);
    const before = everything(join(cwd, FOLDER));
    jobIn(cwd, AFTER);
    const { code, calls = 0 } = await withFault(JOB, cwd);
    expect(code).toBe(0);
    return { before, after: everything(join(cwd, FOLDER)), calls };
  },
);

/** Each file as it was or as it will be, but for those that a run keeps for itself. */
const expectWhole = (found: Files, before: Files, after: Files): void => {
  const known = Object.entries(found).filter(([path]) => !isPassing(path));
  expect(
    known
      .filter(([path, text]) => text !== before[path] && text !== after[path])
      .map(([path]) => path),
  ).toEqual([]);
};

/** A run that the disk refused: told in a sentence, with no word of a fault of ours. */
const expectRefused = (
  { code, err, out }: Pick<Ran, 'err' | 'out'> & { readonly code: number | undefined },
  reason: RegExp,
): void => {
  expect([code, err.split('\n').length, `${err}${out}`.includes('Internal error')]).toEqual([
    3,
    2,
    false,
  ]);
  expect(err).toMatch(reason);
};

describe('a disk that refuses', () => {
  test(
    'at any call of a job: exit 3, whole files, and a run afterwards is as if nothing had been',
    { timeout: 7_200_000 },
    async () => {
      const { before, after, calls } = await cleanRuns();
      const kind = fc.constantFrom<FaultKind[]>('ENOSPC', 'ENOSPC', 'EROFS', 'EIO', 'EACCES');
      const refused = async (share: number, how: FaultKind): Promise<void> => {
        const cwd = tempFolder();
        filled(join(cwd, FOLDER), before);
        jobIn(cwd, AFTER);
        const ran = await withFault(JOB, cwd, { kind: how, at: 1 + Math.floor(share * calls) });
        // A full disk is no hindrance to a run that only has to take away.
        if (ran.code !== 0) expectRefused(ran, /disk|system refused|permission/);
        else expect(how).toBe('ENOSPC');
        const left = everything(join(cwd, FOLDER));
        expectWhole(left, before, after);
        if (how === 'ENOSPC')
          expect(Object.keys(left).filter((path) => path.includes('.part'))).toEqual([]);
        expect((await blankwright(JOB, cwd)).code).toBe(0);
        expect(everything(join(cwd, FOLDER))).toEqual(after);
      };
      const share = fc.noBias(fc.integer({ min: 0, max: 9999 }).map((n) => n / 10_000));
      await fc.assert(fc.asyncProperty(share, kind, refused), {
        numRuns: fuzzRuns(4),
        endOnFailure: true,
      });
    },
  );

  test.each<readonly [string, readonly string[], string]>([
    ['make', [...BRACKET, '--hand', 'both', '--papers', 'card'], 'out'],
    ['pack', ['pack', 'job.yaml'], 'pack'],
  ])('%s writes all its files or none', async (_, args, folder) => {
    const cwd = tempFolder();
    jobIn(cwd, BEFORE);
    const { code, calls = 0 } = await withFault(args, cwd);
    expect(code).toBe(0);
    const before = everything(join(cwd, folder));
    // Where nothing stood, nothing stands; where files stood, they still do.
    for (const [kind, share, earlier] of [
      ['ENOSPC', 0.4, before],
      ['EIO', 0.6, {}],
    ] as const) {
      rmSync(join(cwd, folder), { recursive: true });
      mkdirSync(join(cwd, folder));
      filled(join(cwd, folder), earlier);
      expectRefused(
        await withFault(args, cwd, { kind, at: Math.max(1, Math.floor(share * calls)) }),
        /disk|system refused/,
      );
      const left = everything(join(cwd, folder));
      expect(Object.fromEntries(Object.entries(left).filter(([path]) => !isPassing(path)))).toEqual(
        earlier,
      );
      expect((await blankwright(args, cwd)).code).toBe(0);
      expect(everything(join(cwd, folder))).toEqual(before);
    }
  });
});

test('files may be no larger than a limit of the system', async () => {
  const { before, after } = await cleanRuns();
  const cwd = tempFolder();
  filled(join(cwd, FOLDER), before);
  jobIn(cwd, AFTER);
  const limited = (...flags: string[]): Ran => {
    const ran = spawnSync(
      'bash',
      ['-c', 'ulimit -f 2; exec "$0" "$@"', process.execPath, COMMAND, ...JOB, ...flags],
      { cwd, encoding: 'utf8' },
    );
    return { code: ran.status ?? -1, out: ran.stdout, err: ran.stderr };
  };
  expectRefused(limited(), /^Nothing was written to .*larger than is allowed here/);
  const machine = limited('--json');
  expect([machine.code, json<Problems>(machine).problems.map((p) => p.input)]).toEqual([
    3,
    ['out'],
  ]);
  expectWhole(everything(join(cwd, FOLDER)), before, after);
  expect((await blankwright(JOB, cwd)).code).toBe(0);
  expect(everything(join(cwd, FOLDER))).toEqual(after);
});

test('a disk that is full in earnest', async (ctx) => {
  const { before, after } = await cleanRuns();
  const cwd = tempFolder();
  const disk = join(cwd, 'out');
  mkdirSync(disk);
  if (spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=256k', 'tmpfs', disk]).status !== 0)
    ctx.skip('mounting a small disk is not permitted');
  onTestFinished(() => void execFileSync('umount', [disk]));
  jobIn(cwd, BEFORE);
  expect((await blankwright(JOB, cwd)).code).toBe(0);
  jobIn(cwd, AFTER);
  // Whatever is free but for a few pages, so that some files find room and others do not.
  for (const pages of [0, 3]) {
    spawnSync('dd', ['if=/dev/zero', `of=${join(disk, 'filler')}`, 'bs=4096']);
    const filler = execFileSync('stat', ['-c', '%s', join(disk, 'filler')], { encoding: 'utf8' });
    execFileSync('truncate', ['-s', String(Number(filler) - 4096 * pages), join(disk, 'filler')]);
    expectRefused(await blankwright(JOB, cwd), /the disk is full/);
    expectWhole(everything(join(disk, 'cart')), before, after);
    rmSync(join(disk, 'filler'));
  }
  expect((await blankwright(JOB, cwd)).code).toBe(0);
  expect(everything(join(disk, 'cart'))).toEqual(after);
});

test('an answer that cannot be printed ends with exit 3, and a message that cannot be printed changes nothing', () => {
  const ran = (redirected: string): { readonly status: number | null; readonly stderr: string } =>
    spawnSync('bash', ['-c', `"$0" "$1" ${redirected}`, process.execPath, COMMAND], {
      encoding: 'utf8',
    });
  const list = ran('list > /dev/full');
  expect([list.status, list.stderr]).toEqual([
    3,
    expect.stringMatching(/^The answer could not be printed: the disk is full/),
  ]);
  expect(ran('no-such-command 2> /dev/full').status).toBe(2);
});
