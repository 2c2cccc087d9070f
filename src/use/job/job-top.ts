import type { JobManifest, JobOutcome, PartRecord } from '../../contract/job.ts';
import type { PartResult } from '../../contract/part.ts';
import { cutList, type ListedBlank } from '../../cutlist/cut-list.ts';
import { cutListRows } from '../../cutlist/cut-list-text.ts';
import { findMaterial } from '../../data/materials.ts';
import { shown } from '../../forms/given.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { JobFile } from '../../jobfile/job-file.ts';
import type { OutputFile } from '../../model/output-file.ts';
import { csv } from '../../text/csv.ts';
import { CUT_LIST, jobIndexHtml } from './job-index-html.ts';
import type { ReadyJob } from './ready-job.ts';

export const MANIFEST = 'manifest.json';
export const INDEX = 'index.html';
/** Names of the files at the top of a job's folder. */
const TOP_FILES = [INDEX, CUT_LIST, MANIFEST];

/** Problems of parts whose folder would stand where a file of the job does. */
export const nameProblems = ({ parts }: JobFile): InputProblem[] =>
  parts.flatMap(({ name, folder }, i) =>
    TOP_FILES.includes(folder.toLowerCase())
      ? [
          {
            input: `parts[${i}].name`,
            given: shown(name),
            allowed: `names other than those of the job's own files, ${TOP_FILES.join(', ')}`,
            mend: 'give the part another name',
          },
        ]
      : [],
  );

export interface JobTop {
  /** The index page and the cut list. */
  readonly files: readonly OutputFile[];
  /** The record of the job's folder, except the hashes of these files. */
  readonly manifest: JobManifest;
}

/**
 * The files at the top of a job's folder, made from the outcome of its parts. `version` is the
 * program's.
 */
export const jobTop = (
  { job, shop }: ReadyJob,
  parts: readonly JobOutcome[],
  version: string,
): JobTop => {
  const records = parts.flatMap(({ folder, outcome }) =>
    outcome.record === undefined ? [] : [{ folder, record: outcome.record }],
  );
  const blanks = records.flatMap(({ record }) => (record.stopped ? [] : record.parts.map(listed)));
  return {
    files: [
      { name: INDEX, contents: jobIndexHtml({ title: job.title, parts: parts.map(indexEntry) }) },
      { name: CUT_LIST, contents: csv(cutListRows(cutList(blanks, shop))) },
    ],
    manifest: {
      tool: 'blankwright',
      hash: '',
      version,
      job: job.title,
      parts: records.map(({ folder, record }) => entryOf(folder, record)),
    },
  };
};

const indexEntry = ({ name, folder, outcome }: JobOutcome) => ({
  name,
  folder,
  refused: outcome.status === 'refused' ? outcome.reason : undefined,
  parts: outcome.record?.parts ?? [],
  note: outcome.record?.note ?? undefined,
  revision: outcome.record?.revision ?? undefined,
});

const listed = (result: PartResult): ListedBlank => {
  const material = findMaterial(result.material.id);
  if (!material.ok) throw new Error(`${result.material.id} is not in the tables`);
  return { result, materialFamily: material.value.family };
};

const entryOf = (
  folder: string,
  { name, family, hash, inputs, note, revision, files, parts }: PartRecord,
): object => ({
  name,
  family,
  hash,
  inputs,
  note,
  revision,
  files: files.map((f) => ({ path: `${folder}/${f.name}`, sha256: f.sha256, bytes: f.bytes })),
  findings: parts.flatMap((p) =>
    p.findings.filter((f) => f.severity !== 'note').map((f) => ({ part: p.name, ...f })),
  ),
});
