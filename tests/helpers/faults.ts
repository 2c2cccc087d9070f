import { execFile } from 'node:child_process';
import {
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { buildSync } from 'esbuild';
import { COMMAND, type Ran } from './command.ts';

/**
 * Kind of fault: the process is killed; somebody changes a place meanwhile; the disk refuses from
 * there on.
 */
export type FaultKind =
  | 'killed-before'
  | 'killed-half'
  | 'killed-after'
  | 'removed'
  | 'replaced'
  | 'ENOSPC'
  | 'EROFS'
  | 'EIO'
  | 'EACCES'
  | 'EPERM';

export interface Fault {
  readonly kind: FaultKind;
  /** Number of the call at which it happens, counted from 1. */
  readonly at: number;
  /** Path that is removed, or replaced by a file. */
  readonly place?: string;
}

/** How a run ended; there is no code where it was killed. */
export interface Ended extends Omit<Ran, 'code'> {
  readonly code: number | undefined;
  /** Number of its calls that change the disk; `undefined` where it was killed. */
  readonly calls: number | undefined;
}

const scratch = mkdtempSync(join(tmpdir(), 'blankwright-faults-'));
process.on('exit', () => rmSync(scratch, { recursive: true, force: true }));
let runs = 0;

/** Counts the calls of a process that change the disk, and makes one of them go wrong. */
const FAULT = join(scratch, 'fault.cjs');
buildSync({
  entryPoints: ['tests/helpers/faults-disk.ts'],
  outfile: FAULT,
  bundle: true,
  platform: 'node',
  format: 'cjs',
  logLevel: 'error',
});

/** Runs the built command, or another program, with a fault, or only counts its calls. */
export const withFault = (
  args: readonly string[],
  cwd: string,
  fault?: Fault,
  program: string = COMMAND,
): Promise<Ended> => {
  const count = join(scratch, `${(runs += 1)}`);
  const env = {
    ...process.env,
    FAULT_COUNT: count,
    ...(fault !== undefined && {
      FAULT_AT: String(fault.at),
      FAULT_KIND: fault.kind,
      FAULT_PLACE: fault.place ?? '',
    }),
  };
  return ended(['--require', FAULT, program, ...args], { cwd, env }).then((ran) => ({
    ...ran,
    calls: existsSync(count) ? Number(readFileSync(count, 'utf8')) : undefined,
  }));
};

/** Runs the built command and kills it after a while, unless it has ended. */
export const killedAfter = (
  ms: number,
  args: readonly string[],
  cwd: string,
): Promise<Omit<Ended, 'calls'>> =>
  ended([COMMAND, ...args], { cwd, env: process.env, timeout: Math.max(1, Math.round(ms)) });

const ended = (
  args: readonly string[],
  options: { readonly cwd: string; readonly env: NodeJS.ProcessEnv; readonly timeout?: number },
): Promise<Omit<Ended, 'calls'>> =>
  new Promise((done, fail) => {
    execFile(
      process.execPath,
      [...args],
      { ...options, encoding: 'utf8', killSignal: 'SIGKILL', maxBuffer: 1 << 26 },
      (error, out, err) => {
        if (error === null) done({ code: 0, out, err });
        else if (error.signal === 'SIGKILL') done({ code: undefined, out, err });
        else if (typeof error.code === 'number') done({ code: error.code, out, err });
        else fail(error);
      },
    ).stdin?.end();
  });

/**
 * Everything below a folder, by its path from there: contents of files, targets of links, folders
 * as such. Links are not followed.
 */
export const everything = (folder: string, below = ''): Record<string, string> =>
  Object.fromEntries(
    readdirSync(join(folder, below))
      .toSorted()
      .flatMap((name): [string, string][] => {
        const [at, path] = [below === '' ? name : `${below}/${name}`, join(folder, below, name)];
        const found = lstatSync(path);
        if (found.isSymbolicLink()) return [[at, `-> ${readlinkSync(path)}`]];
        if (found.isDirectory()) return [[`${at}/`, ''], ...Object.entries(everything(folder, at))];
        return [[at, readFileSync(path, 'latin1')]];
      }),
  );

/** Names that a run uses for itself until it ends. */
export const isPassing = (path: string): boolean =>
  /(?:^|\/)(?:\.running|\.making\.json)$|\.part(?:\/|$)/.test(path);

/** Fills a folder with what `everything` found in another. */
export const filled = (folder: string, files: Readonly<Record<string, string>>): void => {
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(join(folder, path.endsWith('/') ? path : dirname(path)), { recursive: true });
    if (!path.endsWith('/')) writeFileSync(join(folder, path), text, 'latin1');
  }
};

/** A job of rings, the fastest parts to make. */
export const ringJob = (rings: readonly string[], papers = '[]', title = 'cart'): string =>
  `title: ${JSON.stringify(title)}\ndefaults: { material: s235, thickness: 2, papers: ${papers} }\nparts:\n${rings.join('')}`;

/** One of its parts. */
export const ring = (name: string, outer = 100): string =>
  `  - { family: ring, name: ${JSON.stringify(name)}, inputs: { outer: ${outer}, inner: 40, boltCircle: 70 } }\n`;

/** A dozen small parts with papers. */
export const TWELVE = `title: harvest cart
defaults: { material: s235, thickness: 2, papers: [card] }
measurements: { postWidth: 80, coverOuter: 100 }
parts:
  - { family: bracket-angle, name: seat post, hand: both, inputs: { legA: 60, legB: 40, width: postWidth } }
  - { family: bracket-angle, name: rail, inputs: { legA: 50, legB: 40, width: postWidth - 10 } }
  - { family: bracket-angle, name: shelf, inputs: { legA: 40, legB: 40, width: 50 } }
  - { family: ring, name: cover, inputs: { outer: coverOuter, inner: 40, boltCircle: 70 } }
${['lid', 'flange', 'seal', 'washer', 'cap'].map((name, i) => ring(name, 105 + i)).join('')}  - { family: test-strip, name: coupon, quantity: 3, inputs: { flatLength: 150 } }
  - { family: test-strip, name: long coupon, inputs: { flatLength: 200 } }
  - { family: test-strip, name: short coupon, inputs: { flatLength: 120 } }
`;

/** The same with two measurements changed, one part less and one by another name. */
export const TWELVE_CHANGED = TWELVE.replace('postWidth: 80', 'postWidth: 90')
  .replace('coverOuter: 100', 'coverOuter: 111')
  .replace(ring('seal', 107), '')
  .replace('name: long coupon', 'name: longest coupon');

/** A function whose result is worked out once, because it costs time. */
export const once = <T>(find: () => Promise<T>): (() => Promise<T>) => {
  let found: Promise<T> | undefined;
  return () => (found ??= find());
};
