import { setsOf } from '../assembly/assembled.ts';
import { wholePicture } from '../assembly/whole-picture.ts';
import { withRule } from '../../model/finding-line.ts';
import type { JobPartRecord, WholeRecord } from '../../contract/job.ts';
import type { JobPart } from '../../jobfile/job-file.ts';
import { hasStop } from '../../model/finding.ts';
import { smallTubeSvg } from '../../paper/tube/tube-svg.ts';
import { smallBlankSvg } from '../../paper/write/small-blank-svg.ts';
import { printedIn } from '../../text/printed.ts';
import { makeFiles } from '../make/make-files.ts';
import type { Done } from '../use-case.ts';
import { INDEX } from './job-top.ts';
import { type ReadyJob, templateOf } from './ready-job.ts';
import type { MakeParts } from './remembering-parts.ts';

/**
 * Everything that the files of one part of a job depend on, as a text: while it is the same, they
 * need not be made again. `version` is the program's.
 */
export const dependsOn = (
  { job: { papers, paper, sizes, date, printUnits }, shop }: ReadyJob,
  part: JobPart,
  version: string,
): string => JSON.stringify([version, part, shop, papers, paper, sizes, date, printUnits]);

/**
 * One part of a job with its files and the record that is kept of it. A part that is stopped has no
 * file. It throws nothing, since the inputs were read with the job.
 */
export async function makeJobPart(
  ready: ReadyJob,
  part: JobPart,
  make?: MakeParts,
): Promise<Done<JobPartRecord>> {
  const { job, shop } = ready;
  const { name, family, inputs, way, note, revision, cardOf, silence } = part;
  const made = await makeFiles({
    template: templateOf(ready, family),
    inputs,
    options: { ...way, shop },
    outputs: job.papers,
    paper: job.paper,
    sizes: job.sizes,
    date: job.date,
    printUnits: job.printUnits,
    note,
    revision,
    cardOf,
    silence,
    home: `../${INDEX}`,
    make,
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const { result, findings, files, silenced, made: parts, tubes } = made;
  const record = {
    name,
    family,
    inputs,
    note: note ?? null,
    revision: revision ?? null,
    stopped: hasStop(findings),
    silenced,
    parts: result.parts,
    reports: result.reports,
    pictures: Object.fromEntries([
      ...parts.flatMap((one) =>
        one.stopped ? [] : [[one.result.name, smallBlankSvg(one.flat)] as const],
      ),
      ...tubes.map(
        (one) => [one.result.name, smallTubeSvg(one.tube, printedIn(job.printUnits))] as const,
      ),
    ]),
    wholes: setsOf(parts).flatMap((set): WholeRecord[] => {
      const [first] = set.parts;
      const picture = wholePicture(set);
      return first === undefined
        ? []
        : [
            {
              name: set.name,
              base: set.base,
              first: first.result.name,
              ...(picture !== undefined && { picture }),
            },
          ];
    }),
  };
  return { ok: true, result: record, findings, files };
}

/** Reasons why a part was stopped, each once. */
export const stopsOf = ({ parts }: Pick<JobPartRecord, 'parts'>): string =>
  [
    ...new Set(parts.flatMap((p) => p.findings.filter((f) => f.severity === 'stop').map(withRule))),
  ].join(' ');
