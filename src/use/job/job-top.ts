import type { JobManifest, JobOutcome, PartRecord } from '../../contract/job.ts';
import type { PartResult } from '../../contract/part.ts';
import { cutList, type ListedBlank } from '../../cutlist/cut-list.ts';
import { cutListRows } from '../../cutlist/cut-list-text.ts';
import { tubeList, tubeListRows } from '../../cutlist/tube-list.ts';
import { findMaterial } from '../../data/materials.ts';
import { shown } from '../../forms/given.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { JobFile } from '../../jobfile/job-file.ts';
import type { OutputFile } from '../../model/output-file.ts';
import { SHA_DIGITS } from '../../model/paper-mark.ts';
import { csv } from '../../text/csv.ts';
import { frontHtml } from '../../paper/sheet/front-html.ts';
import { printedIn } from '../../text/printed.ts';
import { type FrontEntry, frontPage } from './front-page.ts';
import type { FrontLink } from '../../paper/sheet/front-html.ts';
import { svgAddress } from '../../paper/write/small-blank-svg.ts';
import type { ReadyJob } from './ready-job.ts';

/** Name of the cut list, which stands beside the front page. */
const CUT_LIST = 'cutlist.csv';
/** Name of the list of tubes, where the job has any. */
const TUBE_LIST = 'tubes.csv';
export const MANIFEST = 'manifest.json';
export const INDEX = 'index.html';
/** Names of the files at the top of a job's folder. */
const TOP_FILES = [INDEX, CUT_LIST, TUBE_LIST, MANIFEST];

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
  const blanks = records.flatMap(({ record }) =>
    record.stopped ? [] : record.parts.flatMap(listed),
  );
  const groups = cutList(blanks, shop);
  const tubes = tubeList(
    records.flatMap(({ record }) => (record.stopped ? [] : record.parts)),
    shop,
  );
  const page = frontPage({
    title: job.title,
    entries: parts.flatMap(frontEntries),
    groups,
    tubes,
    papers: [
      { to: CUT_LIST, text: 'Cut list (CSV)' },
      ...(tubes.length === 0 ? [] : [{ to: TUBE_LIST, text: 'Tubes (CSV)' }]),
      { to: MANIFEST, text: 'Manifest (JSON)' },
    ],
    print: printedIn(job.printUnits),
  });
  return {
    files: [
      { name: INDEX, contents: frontHtml(page) },
      { name: CUT_LIST, contents: csv(cutListRows(groups)) },
      ...(tubes.length === 0 ? [] : [{ name: TUBE_LIST, contents: csv(tubeListRows(tubes)) }]),
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
  const { parts, note, revision, pictures, files, wholes = [] } = outcome.record;
  const about = { of: name, note: note ?? undefined, revision: revision ?? undefined };
  const linksOf = (part: FileNames, base: string): FrontLink[] =>
    LINKED.flatMap(([ending, text]) =>
      part.files.includes(base + ending) ? [{ to: `${folder}/${base}${ending}`, text }] : [],
    );
  return parts.flatMap((part): FrontEntry[] => {
    const isTube = part.tube !== undefined;
    const base = baseOf(part, isTube ? '.svg' : '.dxf') ?? part.name;
    const whole = wholes.find(({ first }) => first === part.name);
    const picture = pictures[part.name];
    return [
      // What is welded of several pieces stands before the first of them.
      ...(whole === undefined
        ? []
        : [
            {
              ...about,
              name: `${whole.name}, welded of its pieces`,
              ...(whole.picture !== undefined && {
                picture: svgAddress(whole.picture),
                shows: 'pieces moved apart' as const,
              }),
              ...(part.files.includes(`${whole.base}${WHOLE}.html`) && {
                sheet: `${folder}/${whole.base}${WHOLE}.html`,
              }),
              links: linksOf(part, whole.base + WHOLE),
            },
          ]),
      {
        ...about,
        name: part.name,
        part,
        ...(picture !== undefined && { picture: svgAddress(picture) }),
        ...(isTube && { shows: 'tube as it is bent' }),
        ...(part.files.includes(`${base}-sheet.html`) && {
          sheet: `${folder}/${base}-sheet.html`,
        }),
        paperMark: {
          part: part.name,
          revision: revision ?? undefined,
          ...(!isTube && {
            file: `${base}.dxf`,
            sha: files
              .find(({ name: file }) => file === `${base}.dxf`)
              ?.sha256.slice(0, SHA_DIGITS),
          }),
        },
        links: linksOf(part, base),
      },
    ];
  });
};

interface FileNames {
  readonly files: readonly string[];
}

/** What stands before an ending in the name of one of the files. */
const baseOf = ({ files }: FileNames, ending: string): string | undefined =>
  files.find((file) => file.endsWith(ending))?.slice(0, -ending.length);

/** How the names of papers of several pieces end. */
const WHOLE = '-assembly';

/** What a person opens of a part, by how its files end; the rest lies beside it. */
const LINKED = [
  ['-sheet.pdf', 'Sheet to print'],
  ['-card.pdf', 'Card template'],
  ['.dxf', 'Cut file'],
  ['.pdf', 'Papers to print'],
  ['.glb', 'Model'],
  ['.step', 'STEP'],
  ['-folding.html', 'Step cards for the phone'],
  ['-folding.pdf', 'Step cards to print'],
] as const;

/** A blank for the list; nothing of a tube, which has a list of its own. */
const listed = (result: PartResult): ListedBlank[] => {
  if (result.tube !== undefined) return [];
  const material = findMaterial(result.material.id);
  if (!material.ok) throw new Error(`${result.material.id} is not in the tables`);
  return [{ result, materialFamily: material.value.family }];
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
