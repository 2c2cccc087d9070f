import type { JobOutcome, JobResult } from '../../contract/job.ts';

export interface JobRun {
  readonly job: string;
  readonly folder: string;
  readonly parts: readonly JobOutcome[];
  /** Folders of parts that are no longer in the job and were removed. */
  readonly removed: readonly string[];
  /** Files in the folder that this tool did not make. */
  readonly left: readonly string[];
}

const recordOf = ({ outcome }: JobOutcome) => outcome.record;

/** What became of a job, in figures and part by part. */
export const jobResult = ({ job, folder, parts, removed, left }: JobRun): JobResult => {
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
