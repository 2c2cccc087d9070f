import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runJob } from '../../src/cli/job/run-job.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { makeParts } from '../../src/job.ts';
import type { JobFile, PaperKind } from '../../src/jobfile/job-file.ts';
import type { Template } from '../../src/input/template.ts';
import { nextInputs, OPTIONS, template } from './brackets-work.ts';
import type { Answer } from './measure.ts';

const jobOf = (count: number, papers: readonly PaperKind[]): JobFile => ({
  title: `of ${count}`,
  shop: undefined,
  out: undefined,
  papers,
  paper: 'a4',
  parts: Array.from({ length: count }, (_, i) => ({ name: `part ${i}`, folder: `part-${i}`, family: template.family, inputs: { ...nextInputs(), name: `part ${i}` }, way: { cutOnly: false, dxfVersion: 'r2000' as const }, silence: [], note: undefined, revision: undefined })),
});

/** A job on the disk: time for each part against making the same parts in memory, and how memory grows with their number. */
export default async (): Promise<Answer[]> => {
  const out = mkdtempSync(join(tmpdir(), 'blankwright-bench-'));
  const families: ReadonlyMap<string, Template> = new Map([[template.family, template]]);
  const run = async (job: JobFile): Promise<number> => {
    const start = performance.now();
    const ran = await runJob({ loaded: { job, families, shop: DEFAULT_SHOP, shopFile: undefined }, out, isForcedAnew: false, force: false, onPart: () => undefined });
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
  const peakMb = (): number => process.resourceUsage().maxRSS / 1024;
  try {
    const [small, large] = [jobOf(100, []), jobOf(2000, [])];
    inMemory(small);
    const perSmall = await run(small);
    const peakSmall = peakMb();
    const perLarge = await run(large);
    const peakLarge = peakMb();
    const unchanged = await run(large);
    const memory = inMemory(large);
    const withPapers = await run(jobOf(50, ['card', 'sheet']));
    const answer = (question: string, medianMs: number, ratio: number, against: string, aim?: string): Answer => ({ question, medianMs, perSecond: 1000 / medianMs, ratio, against, ...(aim !== undefined && { aim }) });
    return [
      answer('a job of 2000 parts, each', perLarge, perLarge / memory, 'the same parts in memory'),
      answer('the same, of which nothing has changed, each', unchanged, unchanged / perLarge, 'making them'),
      answer('a part of 2000', perLarge, perLarge / perSmall, 'one of 100', 'flat'),
      answer(`peak memory of 2000 parts, ${Math.round(peakLarge)} MB`, perLarge, peakLarge / peakSmall, 'of 100 parts', 'flat'),
      answer('a part with its papers', withPapers, withPapers / perSmall, 'without'),
    ];
  } finally {
    rmSync(out, { recursive: true, force: true });
  }
};
