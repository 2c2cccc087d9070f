import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runJob } from '../../src/cli/job/run-job.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import type { JobFile } from '../../src/jobfile/job-file.ts';
import type { Template } from '../../src/forms/template.ts';
import type { Shop } from '../../src/model/shop.ts';
import { nextInputs, OPTIONS, template } from './brackets-work.ts';
import { type Answer, eachOf, once, started, type Took } from './measure.ts';
import { inOwnProcess } from './own-process.ts';
import { comparedOf } from './report.ts';
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

/** What each part of a job on the disk takes. */
const run = async (job: JobFile, out: string): Promise<Took> => {
  const families: ReadonlyMap<string, Template> = new Map([[template.family, template]]);
  const stop = started();
  const ran = await runJob({
    ready: { job, families, shop: OPTIONS.shop as Shop },
    make: makeParts,
    out,
    isForcedAnew: false,
    force: false,
    keepsProofs: false,
    onPart: () => undefined,
  });
  const took = stop();
  if (ran.parts.some((p) => p.outcome.status === 'refused')) throw new Error('a part was refused');
  return eachOf(took, job.parts.length);
};

const inMemory = (job: JobFile): Took => {
  const make = once(() => {
    for (const { inputs } of job.parts) {
      const made = makeParts(template, inputs, OPTIONS);
      if (!made.ok || made.parts.some((p) => p.files().length !== 2)) throw new Error('not made');
    }
  });
  return eachOf(make(), job.parts.length);
};

interface Sized {
  readonly each: Took;
  /** Of the process, when the job was made. */
  readonly peakMb: number;
}

/** What a job of so many parts takes; of use only in a process of its own, whose memory is told. */
export const sized = async (count: number): Promise<Sized> => {
  const each = await inFolder((out) => run(jobOf(count, []), out));
  return { each, peakMb: process.resourceUsage().maxRSS / 1024 };
};

const inFolder = async <T>(work: (out: string) => Promise<T>): Promise<T> => {
  const out = mkdtempSync(join(tmpdir(), 'blankwright-bench-'));
  try {
    return await work(out);
  } finally {
    rmSync(out, { recursive: true, force: true });
  }
};

const ofSize = (count: number): Sized => inOwnProcess(import.meta.url, 'sized', [count]) as Sized;

const answer = (question: string, work: Took, bare: Took, against: string): Answer => ({
  question,
  ...comparedOf([{ work, bare }]),
  against,
});

/**
 * Against making the same parts and keeping nothing, and what is left to do when nothing has
 * changed, or when papers are asked for.
 */
const compared = (): Promise<Answer[]> =>
  inFolder(async (out) => {
    const [job, withPapers] = [jobOf(500, []), jobOf(50, ['card', 'sheet'])];
    inMemory(job);
    const made = await run(job, out);
    const memory = inMemory(job);
    const unchanged = await run(job, out);
    const papers = await run(withPapers, out);
    return [
      answer('a part of a job of 500', made, memory, 'the same parts in memory'),
      answer('the same, of which nothing has changed', unchanged, made, 'making it'),
      answer('a part with its papers', papers, made, 'without'),
    ];
  });

/** What grows by no more than this from a hundred parts on counts as flat. */
const FLAT = 1.5;

/** A job on the disk: time and memory must not grow with the number of its parts. */
export default async (): Promise<Answer[]> => {
  const [small, middle, large] = [ofSize(100), ofSize(1000), ofSize(10_000)];
  const time = (count: string, { each }: Sized): Answer => ({
    ...answer(`a part of ${count}`, each, small.each, 'one of 100'),
    aim: { on: 'cpuRatio', atMost: FLAT },
  });
  const memory = (count: string, { each, peakMb }: Sized): Answer => ({
    ...answer(
      `peak memory of ${count} parts, ${Math.round(peakMb)} MB`,
      each,
      small.each,
      `${Math.round(small.peakMb)} MB of 100 parts`,
    ),
    ratio: { middle: peakMb / small.peakMb },
    aim: { on: 'ratio', atMost: FLAT },
  });
  return [
    ...(await compared()),
    time('1000', middle),
    time('10 000', large),
    memory('1000', middle),
    memory('10 000', large),
  ];
};
