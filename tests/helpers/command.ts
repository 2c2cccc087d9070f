import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { onTestFinished } from 'vitest';
import { IS_FULL } from './extent.ts';
import { runWithin } from './run-within.ts';

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** The built command, as it is installed. */
export const COMMAND = resolve('dist/blankwright.cjs');

/**
 * Runs a command line in a folder, within the process of the test, which takes a tenth of the time; in
 * full every fifth as users run it, in a process of its own. For what only a process has, as its
 * environment, its end and other runs beside it, there is `runProcess`.
 */
export const blankwright = (args: readonly string[], cwd: string): Promise<Ran> =>
  IS_FULL && (calls += 1) % 5 === 0 ? runProcess(args, cwd) : runWithin(args, cwd);
let calls = 0;

/** Runs the built command in a process of its own. */
export const runProcess = (
  args: readonly string[],
  cwd: string,
  program: string = COMMAND,
): Promise<Ran> =>
  new Promise((done, fail) => {
    const child = execFile(
      process.execPath,
      [program, ...args],
      { cwd, encoding: 'utf8', timeout: 1_800_000, maxBuffer: 1 << 26 },
      (error, out, err) => {
        // `code` is a text when the process could not be started or was ended.
        if (error === null || typeof error.code === 'number')
          done({ code: error === null ? 0 : Number(error.code), out, err });
        else fail(error);
      },
    );
    child.stdin?.end();
  });

/** The one JSON document a command printed. Text around it, or a second document, is an error. */
export const json = <T>({ out }: Ran): T => JSON.parse(out) as T;

/** What `--json` prints when the input is wrong or the disk refuses. */
export interface Problems {
  readonly problems: readonly {
    readonly input: string;
    readonly given: string;
    readonly allowed: string;
    readonly mend?: string;
  }[];
}

/** A folder of its own for the test that calls, gone when that is over. */
export const tempFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'blankwright-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
};

/** All that stands in a folder, by name, with its contents; nothing when there is no folder. */
export const contents = (folder: string): Record<string, string> =>
  existsSync(folder)
    ? Object.fromEntries(
        readdirSync(folder, { withFileTypes: true })
          .toSorted((a, b) => (a.name < b.name ? -1 : 1))
          .map((e) => [
            e.name,
            e.isFile() ? readFileSync(join(folder, e.name), 'utf8') : '(not a file)',
          ]),
      )
    : {};

export const names = (folder: string): string[] => Object.keys(contents(folder));

/** A plain bracket on the command line. */
export const BRACKET =
  'make bracket-angle --leg-a 60 --leg-b 40 --width 80 --material s275 --thickness 3 --radius 3'.split(
    ' ',
  );
