import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { makeParts } from '../../use/make/make-parts.ts';
import type { PartResult, ReportResult } from '../../contract/part.ts';
import type { Console } from '../console.ts';
import { DiskRefused, EXIT, WrongInput } from '../failure.ts';
import { type Flags, type FlagSpecs, textOf, wordOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { loadJob } from '../job/load-job.ts';
import type { MakeParts } from '../job/made-parts.ts';
import { type Progress, progressOn } from '../job/progress.ts';
import { type JobOutcome, type RanJob, runJob } from '../job/run-job.ts';
import { warningsText } from '../job/warnings-text.ts';
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
    describe: 'Make every part anew, also those of which nothing has changed',
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

/** The JSON document of `job --json`. */
export interface JobResult {
  readonly job: string;
  readonly folder: string;
  readonly parts: readonly JobPartResult[];
  readonly summary: {
    readonly made: number;
    readonly unchanged: number;
    readonly refused: number;
    readonly warnings: number;
    readonly silenced: number;
    readonly removed: number;
  };
  /** What stands in the folder and is not of this tool. */
  readonly left: readonly string[];
}

export interface JobPartResult {
  readonly name: string;
  readonly folder: string;
  readonly status: 'made' | 'unchanged' | 'refused';
  /** Why it was refused; `null` otherwise. */
  readonly reason: string | null;
  readonly parts: readonly (PartResult & { readonly files: readonly string[] })[];
  readonly reports: readonly ReportResult[];
}

/**
 * `job JOB.yaml`: everything that the file asks for, into a folder of its own; only what has
 * changed is made again. JSON: `JobResult`. Ends as a part that cannot be made does when one of its
 * parts cannot.
 */
export const run: RunCommand = (args, console) => runJobCommand(args, console, makeParts);

/** The same, by what makes parts. */
export const runJobCommand = async (
  args: readonly string[],
  console: Console,
  make: MakeParts,
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
  if (flags['watch'] !== true) return once(file, flags, console, make);
  return watched(file, flags, console, make);
};

const once = async (
  file: string,
  flags: Flags,
  console: Console,
  make: MakeParts,
  onShop?: (places: readonly string[]) => void,
): Promise<number> => {
  const loaded = await loadJob(file, textOf(flags, 'shop'), onShop);
  const isJson = flags['json'] === true;
  const progress: Progress = isJson
    ? { tell: () => undefined, end: () => undefined }
    : await progressOn(console);
  const out =
    textOf(flags, 'out') ??
    (loaded.job.out === undefined ? 'out' : join(dirname(file), loaded.job.out));
  const ran = await runJob({
    loaded,
    make,
    out,
    isForcedAnew: flags['all'] === true,
    force: flags['force'] === true,
    keepsProofs: isJson,
    onPart: (done, number, of) => progress.tell(lineOf(done), number, of),
  });
  progress.end();
  const result = resultOf(loaded.job.title, ran);
  if (isJson) console.out(JSON.stringify(result));
  else for (const line of summaryOf(result, ran, loaded.shopFile)) console.out(line);
  return result.summary.refused > 0 || ran.topInTheWay !== undefined ? EXIT.stopped : EXIT.made;
};

const recordOf = ({ outcome }: JobOutcome) => outcome.record;

const resultOf = (job: string, { folder, parts, removed, left }: RanJob): JobResult => {
  const count = (status: string): number => parts.filter((p) => p.outcome.status === status).length;
  const all = parts.flatMap((p) => recordOf(p) ?? []);
  return {
    job,
    folder,
    parts: parts.map((p) => ({
      name: p.name,
      folder: p.folder,
      status: p.outcome.status,
      reason: p.outcome.status === 'refused' ? p.outcome.reason : null,
      parts: recordOf(p)?.parts ?? [],
      reports: recordOf(p)?.reports ?? [],
    })),
    summary: {
      made: count('made'),
      unchanged: count('unchanged'),
      refused: count('refused'),
      warnings: all.reduce(
        (sum, r) =>
          sum +
          r.parts.reduce((n, p) => n + p.findings.filter((f) => f.severity === 'warn').length, 0),
        0,
      ),
      silenced: all.reduce((sum, r) => sum + r.silenced, 0),
      removed: removed.length,
    },
    left,
  };
};

const lineOf = ({ name, outcome }: JobOutcome): string => {
  if (outcome.status === 'refused') return `refused    ${name}: ${outcome.reason}`;
  return `${outcome.status.padEnd(10)} ${name}${outcome.status === 'made' ? `, ${outcome.record.files.length} files` : ''}`;
};

const summaryOf = (
  { parts, summary, left }: JobResult,
  { folder, removed }: RanJob,
  shopFile: string | undefined,
): string[] => {
  const warned = warningsText(parts);
  return [
    ...(warned.count === 0
      ? []
      : [
          'Warnings, by their rules; silence: [RULE] in the job file leaves out those that you know of:',
          ...warned.lines,
        ]),
    `${summary.made} made, ${summary.unchanged} unchanged, ${summary.refused} refused; ${warned.count} ${warned.count === 1 ? 'warning' : 'warnings'}${summary.silenced > 0 ? `, ${summary.silenced} silenced` : ''}.`,
    ...(shopFile === undefined ? [] : [`Checked against the shop of ${shopFile}`]),
    ...(removed.length > 0 ? [`No longer in the job, and taken away: ${removed.join(', ')}`] : []),
    ...(left.length > 0
      ? [`Left alone, since this command did not make it: ${left.join(', ')}`]
      : []),
    `Everything is in ${folder}; begin with ${join(folder, 'index.html')}.`,
  ];
};

/**
 * Makes the job now and after every change, until the process is ended. A file that cannot be read
 * is told and waited for.
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
      () => once(file, flags, console, make, (places) => files.watch([file, ...(shops = places)])),
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
