import type { CutListResult } from '../../contract/cut-list.ts';
import type { FindingResult } from '../../contract/part.ts';
import { cutList, type LaidOnOf, type ListedBlank } from '../../cutlist/cut-list.ts';
import { cutListRows } from '../../cutlist/cut-list-text.ts';
import type { LaidSheet } from '../../model/laid.ts';
import { csv } from '../../text/csv.ts';
import { type ReadyJob, templateOf } from '../job/ready-job.ts';
import { laidOnOf, sheetsOf } from '../laid/laid-on.ts';
import { notLaid } from '../laid/read-layout.ts';
import type { MakeParts } from '../job/remembering-parts.ts';
import type { WholePart } from '../made-part.ts';
import { makeParts } from '../make/make-parts.ts';
import type { Done, Refused } from '../use-case.ts';

/**
 * What a job needs cut, by material and thickness. Parts that are stopped are left out, and named.
 * `make` makes the parts as `makeParts` does.
 */
export function cutListOfJob(ready: ReadyJob, make: MakeParts = makeParts): Done<CutListResult> {
  const { left, findings, whole } = partsOf(ready, make);
  const groups = cutList(whole.map(listed), ready.shop);
  return { ok: true, result: { job: ready.job.title, groups, left }, findings, files: [] };
}

/**
 * The same where the parts are laid on sheets already: the sheets really taken in place of the least
 * number. A layout of other parts is refused.
 */
export function cutListOfLaidJob(
  ready: ReadyJob,
  sheets: readonly LaidSheet[],
): Done<CutListResult> | Refused {
  const { left, findings, whole } = partsOf(ready, makeParts);
  const problem = notLaid(
    sheets,
    whole.map(({ result }) => result),
  );
  if ('given' in problem) return { ok: false, problems: [problem] };
  const drawings = new Map(whole.map(({ result, drawing }) => [result.name, drawing]));
  const laidOn: LaidOnOf = (material, thicknessMm, blanks) =>
    laidOnOf(
      sheetsOf(sheets, material, thicknessMm),
      blanks.map(({ result }) => result),
      drawings,
    );
  const groups = cutList(whole.map(listed), ready.shop, laidOn);
  return { ok: true, result: { job: ready.job.title, groups, left }, findings, files: [] };
}

/** What is kept of a part: its proof and plan are most of it. */
type ListedPart = Pick<WholePart, 'result' | 'material' | 'flat' | 'drawing'>;

const listed = ({ result, material, flat }: ListedPart): ListedBlank => ({
  result,
  materialFamily: material.family,
  flat,
});

/** Every part of the job that can be made, and the names of the others. */
const partsOf = (
  ready: ReadyJob,
  make: MakeParts,
): {
  readonly whole: readonly ListedPart[];
  readonly left: readonly string[];
  readonly findings: readonly FindingResult[];
} => {
  const { job, shop } = ready;
  const all = job.parts.flatMap(({ family, inputs, way }) => {
    const made = make(templateOf(ready, family), inputs, { ...way, shop });
    // The inputs were already read with the job.
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    return made.parts;
  });
  return {
    whole: all
      .filter((one) => !one.stopped)
      .map(({ result, material, flat, drawing }) => ({ result, material, flat, drawing })),
    left: all.filter((one) => one.stopped).map(({ result }) => result.name),
    findings: all.flatMap(({ result }) => result.findings),
  };
};

/** The cut list as comma-separated values, for a spreadsheet. */
export const cutListCsv = ({ groups }: CutListResult): string => csv(cutListRows(groups));
