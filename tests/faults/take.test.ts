import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buildSync } from 'esbuild';
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { WrongInput } from '../../src/cli/failure.ts';
import { takeBackLaid, takeLaid } from '../../src/cli/lay/take.ts';
import type { TakenStock } from '../../src/contract/stock.ts';
import { runProcess, tempFolder } from '../helpers/command.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import {
  everything,
  type FaultKind,
  filled,
  isPassing,
  once,
  withFault,
} from '../helpers/faults.ts';
import { BIG, laidOn, OUTLINES, RACK } from '../stock/laid-plates.ts';

const scratch = mkdtempSync(join(tmpdir(), 'blankwright-take-'));
process.on('exit', () => rmSync(scratch, { recursive: true, force: true }));
const DRIVER = join(scratch, 'take.cjs');
const LAYOUT = join(scratch, 'layout.json');

beforeAll(() => {
  buildSync({
    entryPoints: ['tests/helpers/take-driver.ts'],
    outfile: DRIVER,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    logLevel: 'error',
  });
  const sheets = laidOn(RACK, [BIG, 'floor'], ['R4', 'ear']);
  writeFileSync(LAYOUT, JSON.stringify({ sheets, outlines: [...OUTLINES] }));
});

const TAKE = ['take', LAYOUT, 'shop.yaml'];
const BACK = ['back', 'shop.yaml'];

type Files = Readonly<Record<string, string>>;

const START: Files = { 'shop.yaml': RACK, 'photo.jpg': 'mine', 'cart.yaml': 'job: cart' };

/** The same as the driver does, within the process of the test: only what is killed needs its own. */
const drive = async (
  [what, , file]: readonly string[],
  cwd: string,
): Promise<{ readonly code: number; readonly out: string }> => {
  const sheets = laidOn(RACK, [BIG, 'floor'], ['R4', 'ear']);
  const shopFile = join(cwd, file ?? 'shop.yaml');
  try {
    const done = await (what === 'back'
      ? takeBackLaid(shopFile)
      : takeLaid({ shopFile, sheets, outlines: OUTLINES }));
    return { code: 0, out: JSON.stringify(done) };
  } catch (error) {
    if (!(error instanceof WrongInput)) throw error;
    return { code: 2, out: JSON.stringify(error.problems) };
  }
};

const folderWith = (files: Files): string => {
  const cwd = tempFolder();
  filled(cwd, files);
  return cwd;
};

/** What undisturbed runs leave, and how often each changes the disk. */
const clean = once(async () => {
  const cwd = folderWith(START);
  const take = await withFault(TAKE, cwd, undefined, DRIVER);
  const taken = everything(cwd);
  const back = await withFault(BACK, cwd, undefined, DRIVER);
  expect([take.code, back.code]).toEqual([0, 0]);
  return { taken, back: everything(cwd), takeCalls: take.calls ?? 0, backCalls: back.calls ?? 0 };
});

test('a booking is written beside the shop file, and taken back to the letter', async () => {
  const cwd = folderWith(START);
  const taken = await runProcess(TAKE, cwd, DRIVER);
  expect([taken.code, taken.err]).toEqual([0, '']);
  expect(JSON.parse(taken.out) as TakenStock).toMatchObject({
    shop: 'shop.yaml',
    record: 'shop.taken.json',
    used: [{ stock: BIG, left: 1 }, { stock: 'R4' }],
  });
  expect(Object.keys(everything(cwd))).toEqual([
    'cart.yaml',
    'photo.jpg',
    'shop.taken.json',
    'shop.yaml',
  ]);
  const again = await drive(TAKE, cwd);
  expect([again.code, again.out]).toEqual([2, expect.stringContaining('already') as string]);
  expect((await drive(BACK, cwd)).code).toBe(0);
  expect(everything(cwd)).toMatchObject(START);
  expect((await drive(BACK, cwd)).code).toBe(2);
});

test.each([
  ['no shop file', {}, /shop --ask/],
  [
    'a shop file with a mistake',
    { 'shop.yaml': RACK.replace('count', 'cuont') },
    /did you mean count/,
  ],
  [
    'a shop file that would be too large to be read again',
    { 'shop.yaml': `${RACK}# ${'x'.repeat(99_950 - RACK.length)}\n` },
    /larger than 100000 bytes/,
  ],
  ['a record that is none', { 'shop.yaml': RACK, 'shop.taken.json': 'mine' }, /move it away/],
])('%s: told, and nothing is changed', async (_, files, told) => {
  const cwd = folderWith(files);
  const ran = await drive(TAKE, cwd);
  expect([ran.code, everything(cwd)]).toEqual([2, files]);
  expect(ran.out).toMatch(told);
});

test('a shop file that is a link is not written through, and a folder is no shop file', async () => {
  const cwd = folderWith({ 'rack.yaml': RACK });
  symlinkSync('rack.yaml', join(cwd, 'shop.yaml'));
  const ran = await drive(TAKE, cwd);
  expect([ran.code, everything(cwd)]).toEqual([
    2,
    { 'rack.yaml': RACK, 'shop.yaml': '-> rack.yaml' },
  ]);
  mkdirSync(join(cwd, 'other.yaml'));
  expect((await drive(['take', LAYOUT, 'other.yaml'], cwd)).code).toBe(2);
});

test('two that book at once: one does, the other is told so or comes second', async () => {
  const { taken } = await clean();
  const cwd = folderWith(START);
  const both = await Promise.all([TAKE, TAKE].map((args) => runProcess(args, cwd, DRIVER)));
  expect(both.map(({ code }) => code).toSorted((a, b) => a - b)).toEqual([0, 2]);
  expect(everything(cwd)).toEqual(taken);
});

describe('at any call that changes the disk', () => {
  const SHARE = fc.noBias(fc.integer({ min: 0, max: 9999 }).map((n) => n / 10_000));
  const KILLS = fc.constantFrom<FaultKind[]>('killed-before', 'killed-half', 'killed-after');
  const at = (share: number, calls: number): number => 1 + Math.floor(share * calls);
  const known = (files: Files): Files =>
    Object.fromEntries(Object.entries(files).filter(([path]) => !isPassing(path)));

  /** The shop file is as before or as after, never anything else, and nothing else is touched. */
  const expectWhole = (files: Files, taken: Files): void => {
    expect([RACK, taken['shop.yaml']]).toContain(files['shop.yaml']);
    expect(files).toMatchObject({ 'photo.jpg': 'mine', 'cart.yaml': 'job: cart' });
  };

  test('a booking that is killed is booked once by the next run', async () => {
    const { taken, takeCalls } = await clean();
    const killed = async (share: number, kind: FaultKind): Promise<void> => {
      const cwd = folderWith(START);
      const fault = { kind, at: at(share, takeCalls) };
      expect((await withFault(TAKE, cwd, fault, DRIVER)).code).toBeUndefined();
      const left = everything(cwd);
      expectWhole(known(left), taken);
      const isBooked = left['shop.yaml'] !== RACK;
      expect((await drive(TAKE, cwd)).code).toBe(isBooked ? 2 : 0);
      expect(everything(cwd)).toEqual(taken);
    };
    await fc.assert(fc.asyncProperty(SHARE, KILLS, killed), { numRuns: fuzzRuns(12) });
  });

  test('one that is killed while it is taken back is taken back, once', async () => {
    const { taken, back, backCalls } = await clean();
    const killed = async (share: number, kind: FaultKind): Promise<void> => {
      const cwd = folderWith(taken);
      const fault = { kind, at: at(share, backCalls) };
      expect((await withFault(BACK, cwd, fault, DRIVER)).code).toBeUndefined();
      const left = everything(cwd);
      expectWhole(known(left), taken);
      const isBack = left['shop.yaml'] === RACK;
      expect((await drive(BACK, cwd)).code).toBe(isBack ? 2 : 0);
      expect(everything(cwd)['shop.yaml']).toBe(RACK);
      // And what was taken back may be booked again.
      expect((await drive(TAKE, cwd)).code).toBe(0);
      expect(everything(cwd)).toEqual(taken);
      expect((await drive(BACK, cwd)).code).toBe(0);
      expect(everything(cwd)).toEqual(back);
    };
    await fc.assert(fc.asyncProperty(SHARE, KILLS, killed), { numRuns: fuzzRuns(9) });
  });

  test('a disk that refuses leaves both files as they were', async () => {
    const { taken, takeCalls } = await clean();
    const refused = async (share: number, kind: FaultKind): Promise<void> => {
      const cwd = folderWith(START);
      const { code } = await withFault(TAKE, cwd, { kind, at: at(share, takeCalls) }, DRIVER);
      const left = known(everything(cwd));
      if (code === 0) expect(left).toEqual(taken);
      else {
        expect([code, left['shop.yaml']]).toEqual([3, RACK]);
        expect((await drive(TAKE, cwd)).code).toBe(0);
        expect(known(everything(cwd))).toEqual(taken);
      }
    };
    const KIND = fc.constantFrom<FaultKind[]>('ENOSPC', 'EROFS', 'EIO', 'EACCES');
    await fc.assert(fc.asyncProperty(SHARE, KIND, refused), { numRuns: fuzzRuns(9) });
  });
});
