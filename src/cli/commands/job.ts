import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { cardPagesText } from '../../use/job/card-pages.ts';
import { jobResult } from '../../use/job/job-result.ts';
import { jobLine, jobSummary } from '../../use/job/job-text.ts';
import { INDEX } from '../../use/job/job-top.ts';
import type { MakeParts } from '../../use/job/remembering-parts.ts';
import { makeParts } from '../../use/make/make-parts.ts';
import type { Console } from '../console.ts';
import { DiskRefused, EXIT, WrongInput } from '../failure.ts';
import { type Flags, type FlagSpecs, textOf, wordOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { loadJob } from '../job/load-job.ts';
import { type Progress, progressOn } from '../job/progress.ts';
import { runJob } from '../job/run-job.ts';
import { inLines } from '../terminal.ts';
import { watchFiles } from '../job/watch-files.ts';
import type { RunCommand } from './index.ts';

const JOB_USAGE = 'job JOB.yaml';

const JOB_FLAGS = {
  out: {
    type: 'string',
    describe: "Folder to write to; that of the job's file, or out/, when left out",
  },
  shop: {
    type: 'string',
    describe:
      "Shop file to check against; else that of the job, shop.yaml beside it, then the user's own",
  },
  all: {
    type: 'boolean',
    describe: 'Make every part again, even where nothing has changed',
  },
  force: {
    type: 'boolean',
    describe: 'Replace files that were not made by this command, or were changed since',
  },
  watch: {
    type: 'boolean',
    describe: 'Stay, and make the job again whenever its file or the shop file is saved',
  },
} as const satisfies FlagSpecs;

/**
 * `job JOB.yaml`: makes everything that the file asks for into a folder of its own; only what has
 * changed is made again. JSON: `JobResult`. When a part cannot be made, the command ends as for any
 * such part.
 */
export const run: RunCommand = (args, console) => runJobCommand(args, console, makeParts);

/** Is told of each part that is done; what it throws ends the job behind that part. */
type AfterPart = (done: number, of: number) => Promise<void>;

/** The command `job` with a given function that makes the parts. */
export const runJobCommand = async (
  args: readonly string[],
  console: Console,
  make: MakeParts,
  afterPart?: AfterPart,
): Promise<number> => {
  const flags = await flagsOf(args, console, { usage: JOB_USAGE, flags: JOB_FLAGS, words: 2 });
  if (flags === undefined) return EXIT.made;
  const file = wordOf(flags);
  if (file === undefined)
    throw new WrongInput([
      {
        input: 'job',
        given: 'nothing',
        allowed: `the name of a job file: blankwright ${JOB_USAGE}`,
      },
    ]);
  if (flags['watch'] !== true) return once(file, flags, console, { make, afterPart });
  return watched(file, flags, console, make);
};

interface OnceOptions {
  readonly make: MakeParts;
  readonly afterPart?: AfterPart | undefined;
  readonly onShop?: (places: readonly string[]) => void;
}

const once = async (
  file: string,
  flags: Flags,
  console: Console,
  { make, afterPart, onShop }: OnceOptions,
): Promise<number> => {
  const loaded = await loadJob(file, textOf(flags, 'shop'), onShop);
  const isJson = flags['json'] === true;
  const progress: Progress = isJson
    ? { tell: () => undefined, end: () => undefined }
    : await progressOn(console);
  if (!isJson) for (const line of cardPagesText(loaded)) console.out(inLines(line));
  const out =
    textOf(flags, 'out') ??
    (loaded.job.out === undefined ? 'out' : join(dirname(file), loaded.job.out));
  const ran = await runJob({
    ready: loaded,
    make,
    out,
    isForcedAnew: flags['all'] === true,
    force: flags['force'] === true,
    keepsProofs: isJson,
    onPart: async (done, number, of) => {
      progress.tell(inLines(jobLine(done)), number, of);
      await afterPart?.(number, of);
    },
  });
  progress.end();
  const result = jobResult({ job: loaded.job.title, ...ran });
  if (isJson) console.out(JSON.stringify(result));
  else {
    const index = join(ran.folder, INDEX);
    const { shopFile } = loaded;
    for (const line of jobSummary(result, {
      ...ran,
      index,
      shopFile,
      printUnits: loaded.job.printUnits,
    }))
      console.out(inLines(line));
  }
  return result.summary.refused > 0 || ran.topInTheWay !== undefined ? EXIT.stopped : EXIT.made;
};

/**
 * Makes the job now and after every change, until the process is ended. When the file cannot be
 * read, its problems are told and it waits for the next change.
 */
const watched = async (
  file: string,
  flags: Flags,
  console: Console,
  make: MakeParts,
): Promise<number> => {
  const files = watchFiles();
  let shops: readonly string[] = [];
  for (;;) {
    files.watch([file, ...shops]);
    await told(
      () =>
        once(file, flags, console, {
          make,
          onShop: (places) => files.watch([file, ...(shops = places)]),
        }),
      console,
    );
    console.out(
      `Watching ${[file, ...shops.filter((path) => existsSync(path))].join(', ')}; end with Ctrl+C.`,
    );
    await files.changed();
  }
};

const told = async (work: () => Promise<unknown>, { err }: Console): Promise<void> => {
  try {
    await work();
  } catch (error) {
    if (!(error instanceof WrongInput) && !(error instanceof DiskRefused)) throw error;
    err(error.message);
  }
};
