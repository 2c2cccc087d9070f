import { lstatSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Template } from '../../input/template.ts';
import { findMaterial } from '../../data/materials.ts';
import { type ListedBlank, cutList } from '../../list/cut-list.ts';
import { cutListRows } from '../../list/cut-list-text.ts';
import type { PartResult } from '../../result.ts';
import { safeName } from '../../safe-name.ts';
import { csv } from '../../write/csv.ts';
import { CUT_LIST, jobIndexHtml } from '../../write/job-index-html.ts';
import { VERSION } from '../version.ts';
import type { LoadedJob } from './load-job.ts';
import { withLock } from './lock.ts';
import { makePart, type PartOutcome, type PartRecord } from './make-part.ts';
import { clearFolder, type FolderRecord, recordIn, writeFolder } from './part-folder.ts';

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
}

export interface RunRequest {
  readonly loaded: LoadedJob;
  /** The folder in which that of the job stands. */
  readonly out: string;
  readonly isForcedAnew: boolean;
  readonly force: boolean;
  /** Told of each part when it is done. */
  readonly onPart: (done: JobOutcome, number: number, of: number) => void;
}

/** Makes all parts of a job, one after the other, each into a folder of its own; then the index and the manifest, and takes away what is no longer in the job. */
export const runJob = (request: RunRequest): Promise<RanJob> => {
  const folder = join(request.out, safeName(request.loaded.job.title));
  return withLock(folder, async () => {
    const parts = await makeAll(request, folder);
    const { removed, left } = removeStale(folder, new Set(request.loaded.job.parts.map((p) => p.folder)));
    const foreign = writeTop(request, folder, parts);
    return { folder, parts, removed, left: [...left, ...foreign] };
  });
};

const makeAll = async ({ loaded: { job, families, shop }, isForcedAnew, force, onPart }: RunRequest, folder: string): Promise<JobOutcome[]> => {
  const done: JobOutcome[] = [];
  for (const part of job.parts) {
    const template = families.get(part.family) as Template;
    const outcome = await makePart({ job, part, template, shop, folder: join(folder, part.folder), isForcedAnew, force });
    const one = { name: part.name, folder: part.folder, outcome };
    done.push(one);
    onPart(one, done.length, job.parts.length);
  }
  return done;
};

/** Folders that an earlier run made for parts that have gone since. */
const removeStale = (folder: string, current: ReadonlySet<string>): { readonly removed: string[]; readonly left: string[] } => {
  const removed: string[] = [];
  const left: string[] = [];
  for (const entry of readdirSync(folder)) {
    const path = join(folder, entry);
    if (current.has(entry) || !lstatSync(path).isDirectory() || recordIn(path) === undefined) continue;
    const kept = clearFolder(path);
    if (kept.length === 0) removed.push(entry);
    else left.push(...kept.map((name) => `${entry}/${name}`));
  }
  return { removed, left };
};

/** Every file of the job, its hash, and the inputs that made it. */
interface Manifest extends FolderRecord {
  readonly version: string;
  readonly job: string;
  readonly parts: readonly object[];
}

const MANIFEST = 'manifest.json';

/** The index page, the cut list, and the manifest as the record of the job's folder. Gives what stands in their way. */
const writeTop = ({ loaded: { job, shop }, force }: RunRequest, folder: string, parts: readonly JobOutcome[]): string[] => {
  const records = parts.flatMap(({ folder: own, outcome }) => (outcome.record === undefined ? [] : [{ folder: own, record: outcome.record }]));
  const index = { name: 'index.html', contents: jobIndexHtml({ title: job.title, parts: parts.map(({ name, folder: own, outcome }) => ({ name, folder: own, refused: outcome.status === 'refused' ? outcome.reason : undefined, parts: outcome.record?.parts ?? [], note: outcome.record?.note ?? undefined, revision: outcome.record?.revision ?? undefined })) }) };
  const list = { name: CUT_LIST, contents: csv(cutListRows(cutList(records.flatMap(({ record }) => (record.stopped ? [] : record.parts.map(listed))), shop))) };
  const manifest: Omit<Manifest, 'files'> = { tool: 'blankwright', hash: '', version: VERSION, job: job.title, parts: records.map(({ folder: own, record }) => entryOf(own, record)) };
  const written = writeFolder(folder, [index, list], manifest, force, MANIFEST);
  return written.foreign === undefined ? [] : [written.foreign];
};

const listed = (result: PartResult): ListedBlank => {
  const material = findMaterial(result.material.id);
  if (!material.ok) throw new Error(`${result.material.id} is not in the tables`);
  return { result, materialFamily: material.value.family };
};

const entryOf = (folder: string, { name, family, hash, inputs, note, revision, files, parts }: PartRecord): object => ({
  name,
  family,
  hash,
  inputs,
  note,
  revision,
  files: files.map((f) => ({ path: `${folder}/${f.name}`, sha256: f.sha256, bytes: f.bytes })),
  findings: parts.flatMap((p) => p.findings.filter((f) => f.severity !== 'note').map((f) => ({ part: p.name, ...f }))),
});

