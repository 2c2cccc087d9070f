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
  /** Folders of parts that are no longer in the job and were removed. */
  readonly removed: readonly string[];
  /** Places that hold something which this tool did not write, and that were left alone. */
  readonly left: readonly string[];
  /** The one of them that prevented writing the index, the cut list and the manifest. */
  readonly topInTheWay: string | undefined;
}

export interface RunRequest {
  readonly ready: ReadyJob;
  readonly make: MakeParts;
  /** The folder that holds the job's own folder. */
  readonly out: string;
  readonly isForcedAnew: boolean;
  readonly force: boolean;
  /** Whether the proofs of all parts are kept to the end. */
  readonly keepsProofs: boolean;
  /** Called for each part when it is done; what it throws ends the job there, each folder whole. */
  readonly onPart: (done: JobOutcome, number: number, of: number) => Promise<void> | undefined;
}

/**
 * Makes all parts of a job, one after the other, each into a folder of its own; then writes the
 * index and the manifest, and removes what is no longer in the job.
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

/**
 * Throws where the folder is a link, since links are not followed out of the folder that was asked
 * for.
 */
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
 * Throws where the folder belongs to another job: different titles may give the same folder, and
 * its contents are not removed for this job's sake.
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
    await onPart(one, done.length, parts.length);
  }
  return done;
};

/**
 * The outcome reduced to what the job's own files need. The rest takes five times the memory, too
 * much for a job of thousands of parts.
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

/** Removes folders that an earlier run made for parts that have gone since. */
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
 * On a disk where upper and lower case count as equal, a folder may have another spelling of the
 * name under which it was just written.
 */
const isSameFolder = (folder: string, name: string, entry: string): boolean => {
  if (name === entry) return true;
  if (kindAt(join(folder, name)) !== 'folder') return false;
  const [one, other] = [name, entry].map((each) => statSync(join(folder, each)));
  return one?.ino === other?.ino && one?.dev === other?.dev;
};

/**
 * Writes the index page, the cut list, and the manifest, which is the record of the job's folder.
 * Returns the files that prevent it.
 */
const writeTop = (
  { ready, force }: RunRequest,
  folder: string,
  parts: readonly JobOutcome[],
): string | undefined => {
  const { files, manifest } = jobTop(ready, parts, VERSION);
  return writeFolder(folder, files, manifest, force, MANIFEST).foreign;
};
