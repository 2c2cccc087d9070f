import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runJob } from '../../src/cli/job/run-job.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import type { JobFile } from '../../src/jobfile/job-file.ts';
import type { Template } from '../../src/forms/template.ts';
import type { Shop } from '../../src/model/shop.ts';
import { nextInputs, OPTIONS, template } from './brackets-work.ts';
import type { Answer } from './measure.ts';
import type { OutputId } from '../../src/use/outputs/index.ts';

const jobOf = (count: number, papers: readonly OutputId[]): JobFile => ({
  title: `of ${count}`,
  shop: undefined,
  out: undefined,
  papers,
  paper: 'a4',
  printUnits: 'mm',
  parts: Array.from({ length: count }, (_, i) => ({
    name: `part ${i}`,
    folder: `part-${i}`,
    family: template.family,
    inputs: { ...nextInputs(), name: `part ${i}` },
    way: { cutOnly: false, dxfVersion: 'r2000' as const },
    silence: [],
    note: undefined,
    revision: undefined,
  })),
});

/** Milliseconds for each part of a job on the disk. */
const run = async (job: JobFile, out: string): Promise<number> => {
  const families: ReadonlyMap<string, Template> = new Map([[template.family, template]]);
  const start = performance.now();
  const ran = await runJob({
    ready: { job, families, shop: OPTIONS.shop as Shop },
    make: makeParts,
    out,
    isForcedAnew: false,
    force: false,
    keepsProofs: false,
    onPart: () => undefined,
  });
  if (ran.parts.some((p) => p.outcome.status === 'refused')) throw new Error('a part was refused');
  return (performance.now() - start) / job.parts.length;
};

const inMemory = (job: JobFile): number => {
  const start = performance.now();
  for (const { inputs } of job.parts) {
    const made = makeParts(template, inputs, OPTIONS);
    if (!made.ok || made.parts.some((p) => p.files().length !== 2)) throw new Error('not made');
  }
  return (performance.now() - start) / job.parts.length;
};

interface Sized {
  readonly eachMs: number;
  /** Of the process, when the job was made. */
  readonly peakMb: number;
}

/** What a job of so many parts takes; of use only in a process of its own, whose memory is told. */
export const sized = async (count: number): Promise<Sized> => {
  const eachMs = await inFolder((out) => run(jobOf(count, []), out));
  return { eachMs, peakMb: process.resourceUsage().maxRSS / 1024 };
};

const inFolder = async <T>(work: (out: string) => Promise<T>): Promise<T> => {
  const out = mkdtempSync(join(tmpdir(), 'blankwright-bench-'));
  try {
    return await work(out);
  } finally {
    rmSync(out, { recursive: true, force: true });
  }
};

const inOwnProcess = (count: number): Sized => {
  const code = `import(${JSON.stringify(import.meta.url)}).then(async (m) => process.stdout.write(JSON.stringify(await m.sized(${count}))))`;
  const { status, stdout, stderr } = spawnSync(process.execPath, ['-e', code], {
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(stderr);
  return JSON.parse(stdout) as Sized;
};

const answer = (
  question: string,
  medianMs: number,
  ratio: number,
  against: string,
  aim?: string,
): Answer => ({
  question,
  medianMs,
  perSecond: 1000 / medianMs,
  ratio,
  against,
  ...(aim !== undefined && { aim }),
});

/**
 * Against making the same parts and keeping nothing, and what is left to do when nothing has
 * changed, or when papers are asked for.
 */
const compared = (): Promise<Answer[]> =>
  inFolder(async (out) => {
    const [job, withPapers] = [jobOf(500, []), jobOf(50, ['card', 'sheet'])];
    const warm = inMemory(job);
    const [made, memory, unchanged, papers] = [
      await run(job, out),
      Math.min(warm, inMemory(job)),
      await run(job, out),
      await run(withPapers, out),
    ];
    return [
      answer('a part of a job of 500', made, made / memory, 'the same parts in memory'),
      answer('the same, of which nothing has changed', unchanged, unchanged / made, 'making it'),
      answer('a part with its papers', papers, papers / made, 'without'),
    ];
  });

/** A job on the disk: time and memory must not grow with the number of its parts. */
export default async (): Promise<Answer[]> => {
  const [small, middle, large] = [inOwnProcess(100), inOwnProcess(1000), inOwnProcess(10_000)];
  const memory = (count: string, { eachMs, peakMb }: Sized): Answer =>
    answer(
      `peak memory of ${count} parts, ${Math.round(peakMb)} MB`,
      eachMs,
      peakMb / small.peakMb,
      `${Math.round(small.peakMb)} MB of 100 parts`,
      'flat',
    );
  return [
    ...(await compared()),
    answer('a part of 1000', middle.eachMs, middle.eachMs / small.eachMs, 'one of 100', 'flat'),
    answer('a part of 10 000', large.eachMs, large.eachMs / small.eachMs, 'one of 100', 'flat'),
    memory('1000', middle),
    memory('10 000', large),
  ];
};
