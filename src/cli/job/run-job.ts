import { statSync } from 'node:fs';
import { join } from 'node:path';
import type { Template } from '../../forms/template.ts';
import { findMaterial } from '../../data/materials.ts';
import { shown } from '../../forms/given.ts';
import type { JobFile } from '../../jobfile/job-file.ts';
import { type ListedBlank, cutList } from '../../cutlist/cut-list.ts';
import { cutListRows } from '../../cutlist/cut-list-text.ts';
import type { PartResult } from '../../contract/part.ts';
import { safeName } from '../../text/safe-name.ts';
import { csv } from '../../text/csv.ts';
import { CUT_LIST, jobIndexHtml } from '../../paper/write/job-index-html.ts';
import { isTemporary, kindAt, namesIn } from '../disk.ts';
import { WrongInput } from '../failure.ts';
import { VERSION } from '../version.ts';
import type { LoadedJob } from './load-job.ts';
import { withLock } from './lock.ts';
import type { MakeParts } from './made-parts.ts';
import { makePart, type PartOutcome, type PartRecord } from './make-part.ts';
import { clearFolder, type FolderRecord, isOurs, recordIn, writeFolder } from './part-folder.ts';

/** One entry of the job's parts, and what became of it. */
export interface JobOutcome {
  readonly name: string;
  readonly folder: string;
  readonly outcome: PartOutcome;
}

export interface RanJob {
  readonly folder: string;
  readonly parts: readonly JobOutcome[];
  /** Folders of parts that are no longer in the job, taken away. */
  readonly removed: readonly string[];
  /** Places where something stands that this tool did not write, and that were left alone. */
  readonly left: readonly string[];
  /** The one of them that kept the index, the cut list and the manifest from being written. */
  readonly topInTheWay: string | undefined;
}

export interface RunRequest {
  readonly loaded: LoadedJob;
  readonly make: MakeParts;
  /** The folder in which that of the job stands. */
  readonly out: string;
  readonly isForcedAnew: boolean;
  readonly force: boolean;
  /** Whether all that was found out about every part is asked for in the end. */
  readonly keepsProofs: boolean;
  /** Told of each part when it is done. */
  readonly onPart: (done: JobOutcome, number: number, of: number) => void;
}

/**
 * Makes all parts of a job, one after the other, each into a folder of its own; then the index and
 * the manifest, and takes away what is no longer in the job.
 */
export const runJob = (request: RunRequest): Promise<RanJob> => {
  const {
    loaded: { job },
    out,
    force,
  } = request;
  const folder = join(out, safeName(job.title));
  assertNamesFree(job);
  assertFolderFree(folder);
  return withLock(folder, async (assertHeld) => {
    if (!force) assertSameJob(folder, job.title);
    const parts = await makeAll(request, folder, assertHeld);
    assertHeld();
    const { removed, left } = removeStale(
      folder,
      job.parts.map((p) => p.folder),
    );
    const topInTheWay = writeTop(request, folder, parts);
    return {
      folder,
      parts,
      removed,
      left: [...left, ...(topInTheWay === undefined ? [] : [topInTheWay])],
      topInTheWay,
    };
  });
};

/** A folder of a part must not stand where a file of the job does. */
const assertNamesFree = ({ parts }: JobFile): void => {
  const problems = parts.flatMap(({ name, folder }, i) =>
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
  if (problems.length > 0) throw new WrongInput(problems);
};

/** Links are not followed out of the folder that was asked for. */
const assertFolderFree = (folder: string): void => {
  if (kindAt(folder) !== 'link') return;
  throw new WrongInput([
    {
      input: 'out',
      given: `${folder}, which is a link to another place`,
      allowed: 'a folder of its own for the job',
      mend: 'remove the link, or choose another folder with --out',
    },
  ]);
};

/**
 * Titles that differ may make the same folder; what stands in it is not taken away for another
 * job's sake.
 */
const assertSameJob = (folder: string, title: string): void => {
  const other = recordIn<Manifest>(folder, MANIFEST)?.job;
  if (typeof other !== 'string' || other === title) return;
  throw new WrongInput([
    {
      input: 'title',
      given: `${shown(title)}, but ${folder} holds the job ${shown(other)}`,
      allowed: 'a title whose folder is new, or was made for the same title',
      mend: 'choose another title or another --out, or make it in place of the other with --force',
    },
  ]);
};

const makeAll = async (
  { loaded: { job, families, shop }, make, isForcedAnew, force, keepsProofs, onPart }: RunRequest,
  folder: string,
  assertHeld: () => void,
): Promise<JobOutcome[]> => {
  const done: JobOutcome[] = [];
  for (const part of job.parts) {
    assertHeld();
    const template = families.get(part.family) as Template;
    const outcome = await makePart({
      job,
      part,
      template,
      make,
      shop,
      folder: join(folder, part.folder),
      isForcedAnew,
      force,
    });
    const one = { name: part.name, folder: part.folder, outcome };
    done.push(keepsProofs ? one : withoutProofs(one));
    onPart(one, done.length, job.parts.length);
  }
  return done;
};

/**
 * What the job's own files are made of: the rest takes five times the memory, which a job of
 * thousands of parts has not.
 */
const withoutProofs = (one: JobOutcome): JobOutcome => {
  const { outcome } = one;
  if (outcome.record === undefined) return one;
  const parts = outcome.record.parts.map((part) => ({
    ...part,
    proof: null,
    fit: null,
    foldPlan: null,
  }));
  return { ...one, outcome: { ...outcome, record: { ...outcome.record, parts, reports: [] } } };
};

/** Folders that an earlier run made for parts that have gone since. */
const removeStale = (
  folder: string,
  current: readonly string[],
): { readonly removed: string[]; readonly left: string[] } => {
  const removed: string[] = [];
  const left: string[] = [];
  const byKey = new Map(current.map((name) => [name.toLowerCase(), name]));
  for (const entry of namesIn(folder)) {
    const path = join(folder, entry);
    const alike = byKey.get(entry.toLowerCase());
    if (
      (alike !== undefined && isSameFolder(folder, alike, entry)) ||
      kindAt(path) !== 'folder' ||
      isTemporary(entry) ||
      !isOurs(path)
    )
      continue;
    const kept = clearFolder(path);
    if (kept.length === 0) removed.push(entry);
    else left.push(...kept.map((name) => `${entry}/${name}`));
  }
  return { removed, left };
};

/**
 * Where capitals do not count, a folder may bear another spelling of the name that it was just
 * written under.
 */
const isSameFolder = (folder: string, name: string, entry: string): boolean => {
  if (name === entry) return true;
  if (kindAt(join(folder, name)) !== 'folder') return false;
  const [one, other] = [name, entry].map((each) => statSync(join(folder, each)));
  return one?.ino === other?.ino && one?.dev === other?.dev;
};

/** Every file of the job, its hash, and the inputs that made it. */
interface Manifest extends FolderRecord {
  readonly version: string;
  readonly job: string;
  readonly parts: readonly object[];
}

const MANIFEST = 'manifest.json';
const INDEX = 'index.html';
/** What stands at the top of a job's folder. */
const TOP_FILES = [INDEX, CUT_LIST, MANIFEST];

/**
 * The index page, the cut list, and the manifest as the record of the job's folder. Gives what
 * stands in their way.
 */
const writeTop = (
  { loaded: { job, shop }, force }: RunRequest,
  folder: string,
  parts: readonly JobOutcome[],
): string | undefined => {
  const records = parts.flatMap(({ folder: own, outcome }) =>
    outcome.record === undefined ? [] : [{ folder: own, record: outcome.record }],
  );
  const index = {
    name: INDEX,
    contents: jobIndexHtml({
      title: job.title,
      parts: parts.map(({ name, folder: own, outcome }) => ({
        name,
        folder: own,
        refused: outcome.status === 'refused' ? outcome.reason : undefined,
        parts: outcome.record?.parts ?? [],
        note: outcome.record?.note ?? undefined,
        revision: outcome.record?.revision ?? undefined,
      })),
    }),
  };
  const list = {
    name: CUT_LIST,
    contents: csv(
      cutListRows(
        cutList(
          records.flatMap(({ record }) => (record.stopped ? [] : record.parts.map(listed))),
          shop,
        ),
      ),
    ),
  };
  const manifest: Omit<Manifest, 'files'> = {
    tool: 'blankwright',
    hash: '',
    version: VERSION,
    job: job.title,
    parts: records.map(({ folder: own, record }) => entryOf(own, record)),
  };
  return writeFolder(folder, [index, list], manifest, force, MANIFEST).foreign;
};

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
