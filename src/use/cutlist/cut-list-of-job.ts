import type { CutListResult } from '../../contract/cut-list.ts';
import type { FindingResult, PartResult } from '../../contract/part.ts';
import { cutList, type LaidOnOf, type ListedBlank } from '../../cutlist/cut-list.ts';
import { cutListRows } from '../../cutlist/cut-list-text.ts';
import { tubeList, tubeListRows } from '../../cutlist/tube-list.ts';
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
  const parts = partsOf(ready, make);
  return done(ready, parts, cutList(parts.whole.map(listed), ready.shop));
}

/**
 * The same where the parts are laid on sheets already: the sheets really taken in place of the least
 * number. A layout of other parts is refused.
 */
export function cutListOfLaidJob(
  ready: ReadyJob,
  sheets: readonly LaidSheet[],
): Done<CutListResult> | Refused {
  const parts = partsOf(ready, makeParts);
  const { whole } = parts;
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
  return done(ready, parts, cutList(whole.map(listed), ready.shop, laidOn));
}

const done = (
  { job, shop }: ReadyJob,
  { left, findings, tubes }: ListedParts,
  groups: CutListResult['groups'],
): Done<CutListResult> => {
  const bars = tubeList(tubes, shop);
  const result = { job: job.title, groups, ...(bars.length > 0 && { tubes: bars }), left };
  return { ok: true, result, findings, files: [] };
};

/** What is kept of a part: its proof and plan are most of it. */
type ListedPart = Pick<WholePart, 'result' | 'material' | 'flat' | 'drawing'>;

const listed = ({ result, material, flat }: ListedPart): ListedBlank => ({
  result,
  materialFamily: material.family,
  flat,
});

interface ListedParts {
  readonly whole: readonly ListedPart[];
  readonly tubes: readonly PartResult[];
  readonly left: readonly string[];
  readonly findings: readonly FindingResult[];
}

/** Every part of the job that can be made, its tubes, and the names of the others. */
const partsOf = (ready: ReadyJob, make: MakeParts): ListedParts => {
  const { job, shop } = ready;
  const made = job.parts.map(({ family, inputs, way }) => {
    const one = make(templateOf(ready, family), inputs, { ...way, shop });
    // The inputs were already read with the job.
    if (!one.ok) throw new Error(JSON.stringify(one.problems));
    return one;
  });
  const all = made.flatMap(({ parts }) => parts);
  const tubes = made.flatMap((one) => one.tubes.map(({ result }) => result));
  return {
    tubes,
    whole: all
      .filter((one) => !one.stopped)
      .map(({ result, material, flat, drawing }) => ({ result, material, flat, drawing })),
    left: all.filter((one) => one.stopped).map(({ result }) => result.name),
    findings: [...all.map(({ result }) => result), ...tubes].flatMap(({ findings }) => findings),
  };
};

/**
 * The cut list as comma-separated values, for a spreadsheet; of a job with tubes a second table below an
 * empty line.
 */
export const cutListCsv = ({ groups, tubes = [] }: CutListResult): string =>
  tubes.length === 0
    ? csv(cutListRows(groups))
    : [csv(cutListRows(groups)), csv(tubeListRows(tubes))].join('\r\n');
