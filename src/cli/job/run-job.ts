import { statSync } from 'node:fs';
import { join } from 'node:path';
import type { FolderRecord, JobManifest, JobOutcome } from '../../contract/job.ts';
import { shown } from '../../forms/given.ts';
import { safeName } from '../../text/safe-name.ts';
import { jobTop, MANIFEST, nameProblems } from '../../use/job/job-top.ts';
import type { ReadyJob } from '../../use/job/ready-job.ts';
import type { MakeParts } from '../../use/job/remembering-parts.ts';
import { isTemporary, kindAt, namesIn } from '../disk.ts';
import { WrongInput } from '../failure.ts';
import { VERSION } from '../version.ts';
import { makePart } from './make-part.ts';
import { clearFolder, isOurs, recordIn, writeFolder } from './part-folder.ts';
import { withLock } from './lock.ts';

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
  readonly ready: ReadyJob;
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
    ready: { job },
    out,
    force,
  } = request;
  const folder = join(out, safeName(job.title));
  const problems = nameProblems(job);
  if (problems.length > 0) throw new WrongInput(problems);
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
  const other = recordIn<JobManifest & FolderRecord>(folder, MANIFEST)?.job;
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
  { ready, make, isForcedAnew, force, keepsProofs, onPart }: RunRequest,
  folder: string,
  assertHeld: () => void,
): Promise<JobOutcome[]> => {
  const done: JobOutcome[] = [];
  const { parts } = ready.job;
  for (const part of parts) {
    assertHeld();
    const own = join(folder, part.folder);
    const outcome = await makePart({ ready, part, make, folder: own, isForcedAnew, force });
    const one = { name: part.name, folder: part.folder, outcome };
    done.push(keepsProofs ? one : withoutProofs(one));
    onPart(one, done.length, parts.length);
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

/**
 * The index page, the cut list, and the manifest as the record of the job's folder. Gives what
 * stands in their way.
 */
const writeTop = (
  { ready, force }: RunRequest,
  folder: string,
  parts: readonly JobOutcome[],
): string | undefined => {
  const { files, manifest } = jobTop(ready, parts, VERSION);
  return writeFolder(folder, files, manifest, force, MANIFEST).foreign;
};
