import type { CutListResult } from '../../contract/cut-list.ts';
import type { FindingResult } from '../../contract/part.ts';
import { cutList, type ListedBlank } from '../../cutlist/cut-list.ts';
import { cutListRows } from '../../cutlist/cut-list-text.ts';
import { csv } from '../../text/csv.ts';
import { type ReadyJob, templateOf } from '../job/ready-job.ts';
import type { MakeParts } from '../job/remembering-parts.ts';
import { makeParts } from '../make/make-parts.ts';
import type { Done } from '../use-case.ts';

/**
 * What a job needs cut, by material and thickness. Parts that are stopped are left out, and named.
 * `make` makes the parts as `makeParts` does.
 */
export function cutListOfJob(ready: ReadyJob, make: MakeParts = makeParts): Done<CutListResult> {
  const { job, shop } = ready;
  const blanks: ListedBlank[] = [];
  const left: string[] = [];
  const findings: FindingResult[] = [];
  for (const { family, inputs, way } of job.parts) {
    const made = make(templateOf(ready, family), inputs, { ...way, shop });
    // The inputs were already read with the job.
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    for (const one of made.parts) {
      const { result } = one;
      findings.push(...result.findings);
      if (one.stopped) left.push(result.name);
      else blanks.push({ result, materialFamily: one.material.family, flat: one.flat });
    }
  }
  const groups = cutList(blanks, shop);
  return { ok: true, result: { job: job.title, groups, left }, findings, files: [] };
}

/** The cut list as comma-separated values, for a spreadsheet. */
export const cutListCsv = ({ groups }: CutListResult): string => csv(cutListRows(groups));
