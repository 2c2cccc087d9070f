import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { blankwright, tempFolder } from '../helpers/command.ts';
import {
  everything,
  type FaultKind,
  filled,
  isPassing,
  killedAfter,
  once,
  TWELVE,
  TWELVE_CHANGED,
  withFault,
} from '../helpers/faults.ts';
import { fuzzRuns } from '../helpers/extent.ts';

/**
 * Files of somebody else's, in the folder of the job, in that of a part and in one of their own.
 */
const FOREIGN = { 'photo.jpg': 'mine', 'cover/notes.txt': 'mine', 'photos/cart.part.jpg': 'mine' };

const FOLDER = join('out', 'harvest-cart');
const JOB = ['job', 'job.yaml'];

type Files = Readonly<Record<string, string>>;

/** Whether a run finds nothing of the tool's, or what it made with other measurements. */
type Start = 'empty' | 'earlier';

const START = fc.constantFrom<Start>('empty', 'earlier');

/** What undisturbed runs leave, of the job as it was and as it is, and how much they do. */
interface Clean {
  readonly before: Files;
  readonly after: Files;
  readonly work: Readonly<Record<Start, { readonly calls: number; readonly ms: number }>>;
}

const jobIn = (cwd: string, text: string): void => writeFileSync(join(cwd, 'job.yaml'), text);

const undisturbed = async (
  cwd: string,
  text: string,
): Promise<{ readonly calls: number; readonly ms: number; readonly files: Files }> => {
  jobIn(cwd, text);
  const began = performance.now();
  const { code, calls = 0 } = await withFault(JOB, cwd);
  const ms = performance.now() - began;
  expect([code, calls > 0]).toEqual([0, true]);
  return { calls, ms, files: everything(join(cwd, FOLDER)) };
};

const cleanRuns = once(async (): Promise<Clean> => {
  const [one, two] = [tempFolder(), tempFolder()];
  for (const cwd of [one, two]) filled(join(cwd, FOLDER), FOREIGN);
  const { files: before } = await undisturbed(one, TWELVE);
  const { files: after, ...empty } = await undisturbed(two, TWELVE_CHANGED);
  const { files, ...earlier } = await undisturbed(one, TWELVE_CHANGED);
  expect(files).toEqual(after);
  return { before, after, work: { empty, earlier } };
});

/** Kills a run with `kill`, looks at what it left, and runs it again. */
const survives = async (
  start: Start,
  { before, after }: Clean,
  kill: (cwd: string) => Promise<unknown>,
): Promise<void> => {
  const cwd = tempFolder();
  filled(join(cwd, FOLDER), start === 'empty' ? FOREIGN : before);
  jobIn(cwd, TWELVE_CHANGED);
  await kill(cwd);
  const left = everything(join(cwd, FOLDER));
  const known = Object.entries(left).filter(([path]) => !isPassing(path));
  expect(
    known
      .filter(([path, text]) => text !== before[path] && text !== after[path])
      .map(([path]) => path),
  ).toEqual([]);
  expect(left).toMatchObject(FOREIGN);
  expect(Object.keys(everything(cwd)).filter((path) => !path.startsWith('out/'))).toEqual([
    'job.yaml',
  ]);
  const again = await blankwright(JOB, cwd);
  expect([again.code, again.err]).toEqual([0, '']);
  expect(everything(join(cwd, FOLDER))).toEqual(after);
};

/** How far a run has got. */
const SHARE = fc.noBias(fc.integer({ min: 0, max: 9999 }).map((n) => n / 10_000));

describe('a job whose run is killed leaves whole files, touches no others, and is made as if nothing had been', () => {
  test('at any moment', { timeout: 7_200_000 }, async () => {
    const clean = await cleanRuns();
    let killed = 0;
    const moment = async (start: Start, share: number): Promise<void> =>
      survives(start, clean, async (cwd) => {
        const { code } = await killedAfter(share * clean.work[start].ms, JOB, cwd);
        if (code === undefined) killed += 1;
      });
    await fc.assert(fc.asyncProperty(START, SHARE, moment), {
      numRuns: fuzzRuns(4),
      endOnFailure: true,
    });
    expect(killed).toBeGreaterThan(0);
  });

  test(
    'at any call that changes the disk: before it, half way, after it',
    { timeout: 7_200_000 },
    async () => {
      const clean = await cleanRuns();
      const kind = fc.constantFrom<FaultKind[]>('killed-before', 'killed-half', 'killed-after');
      const call = async (start: Start, share: number, how: FaultKind): Promise<void> =>
        survives(start, clean, async (cwd) => {
          const { code } = await withFault(JOB, cwd, {
            kind: how,
            at: 1 + Math.floor(share * clean.work[start].calls),
          });
          expect(code).toBeUndefined();
        });
      await fc.assert(fc.asyncProperty(START, SHARE, kind, call), {
        numRuns: fuzzRuns(8),
        endOnFailure: true,
      });
    },
  );
});
