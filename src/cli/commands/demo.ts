import { existsSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { EXIT, WrongInput } from '../failure.ts';
import { type FlagSpecs, textOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { saveNamed } from '../save.ts';
import { rememberingParts } from '../../use/job/remembering-parts.ts';
import type { Console } from '../console.ts';
import type { RunCommand } from './index.ts';
import { runJobCommand } from './job.ts';
import { runPackCommand } from './pack.ts';
import { serve } from './page.ts';

/** The demo's job file, beside the program. */
const DEMO_JOB = fileURLToPath(new URL('../templates/demo/cart.job.yaml', import.meta.url));

const DEMO_FLAGS = {
  out: { type: 'string', describe: 'Folder to write to; out/ when left out' },
  force: {
    type: 'boolean',
    describe:
      'Replace files that were not made by this command, or were changed since; the job file too',
  },
  'no-page': {
    type: 'boolean',
    describe: 'End when the files are made, for scripts; so does --json',
  },
  'no-open': {
    type: 'boolean',
    describe: 'Print the address of the page only, and open no browser',
  },
} as const satisfies FlagSpecs;

/** Folder of the archives for the cutting service. */
const HANDOVER = 'handover';

/** The demo's job as the page changes it, in the folder of the files. */
const OWN_JOB = 'cart.job.yaml';

/**
 * `demo`: the whole job of a vineyard cart, made as `job` makes any, and the archives for a cutting
 * service, packed as `pack` does; then the page of it, as `page` serves any, until it is told to
 * end. The page changes a copy of the job file, from which the next demo is made. Where no terminal
 * is, the page ends with its input. JSON: as for `job`, without the page.
 */
export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, { usage: 'demo', flags: DEMO_FLAGS, words: 1 });
  if (flags === undefined) return EXIT.made;
  const request = {
    out: textOf(flags, 'out') ?? 'out',
    force: flags['force'] === true,
    isJson: flags['json'] === true,
  };
  if (request.isJson || flags['no-page'] === true) return made(DEMO_JOB, request, console);
  const own = join(request.out, OWN_JOB);
  if (request.force || !existsSync(own))
    saveNamed(
      request.out,
      [{ name: OWN_JOB, contents: readFileSync(DEMO_JOB, 'utf8'), mark: '' }],
      request.force,
    );
  const code = await madeOrTold(own, request, console);
  await serve(resolve(own), console, {
    isJson: false,
    isOpened: flags['no-open'] !== true,
    endsWithInput: process.stdin.isTTY !== true,
    out: request.out,
  });
  return code;
};

interface Request {
  readonly out: string;
  readonly force: boolean;
  readonly isJson: boolean;
}

const made = async (
  job: string,
  { out, force, isJson }: Request,
  console: Console,
): Promise<number> => {
  const forced = force ? ['--force'] : [];
  const asJson = isJson ? ['--json'] : [];
  const make = rememberingParts();
  const code = await runJobCommand(['job', job, '--out', out, ...forced, ...asJson], console, make);
  if (code !== EXIT.made) return code;
  return runPackCommand(
    ['pack', job, '--out', join(out, HANDOVER), ...forced],
    isJson ? { ...console, out: () => undefined } : console,
    make,
  );
};

/** What is wrong with a job that was changed on its page is told, and mended there. */
const madeOrTold = async (job: string, request: Request, console: Console): Promise<number> => {
  try {
    return await made(job, request, console);
  } catch (error) {
    if (!(error instanceof WrongInput)) throw error;
    console.err(error.message);
    return EXIT.wrongInput;
  }
};
