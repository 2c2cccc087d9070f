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
import { frontHtml } from '../../paper/sheet/front-html.ts';
import { printedIn } from '../../text/printed.ts';
import { type FrontEntry, frontPage } from './front-page.ts';
import type { ReadyJob } from './ready-job.ts';

/** Name of the cut list, which stands beside the front page. */
const CUT_LIST = 'cutlist.csv';
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
  const groups = cutList(blanks, shop);
  const page = frontPage({
    title: job.title,
    entries: parts.flatMap(frontEntries),
    groups,
    papers: [
      { to: CUT_LIST, text: 'Cut list (CSV)' },
      { to: MANIFEST, text: 'Manifest (JSON)' },
    ],
    print: printedIn(job.printUnits),
  });
  return {
    files: [
      { name: INDEX, contents: frontHtml(page) },
      { name: CUT_LIST, contents: csv(cutListRows(groups)) },
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

/** The blanks of a part of the job, or why there are none. */
const frontEntries = ({ name, folder, outcome }: JobOutcome): FrontEntry[] => {
  if (outcome.status === 'refused') return [{ name, of: name, refused: outcome.reason, links: [] }];
  const { parts, note, revision } = outcome.record;
  return parts.map((part): FrontEntry => {
    const linkOf = (ending: string): string | undefined => {
      const file = part.files.find((f) => f.endsWith(ending));
      return file === undefined ? undefined : `${folder}/${file}`;
    };
    return {
      name: part.name,
      of: name,
      part,
      note: note ?? undefined,
      revision: revision ?? undefined,
      picture: linkOf('.svg'),
      sheet: linkOf('-sheet.html'),
      links: LINKED.flatMap(([ending, text]) => {
        const to = linkOf(ending);
        return to === undefined ? [] : [{ to, text }];
      }),
    };
  });
};

/** What a person opens of a part, by how its files end; the rest lies beside it. */
const LINKED = [
  ['-sheet.pdf', 'Sheet to print'],
  ['-card.pdf', 'Card template'],
  ['.dxf', 'Cut file'],
  ['.glb', 'Model'],
  ['.step', 'STEP'],
  ['-folding.svg', 'Steps of folding'],
] as const;

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
