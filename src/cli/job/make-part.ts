import { join } from 'node:path';
import type { PartOutcome, PartRecord } from '../../contract/job.ts';
import type { JobPart } from '../../jobfile/job-file.ts';
import { dependsOn, makeJobPart, stopsOf } from '../../use/job/job-part.ts';
import type { ReadyJob } from '../../use/job/ready-job.ts';
import type { MakeParts } from '../../use/job/remembering-parts.ts';
import { kindAt } from '../disk.ts';
import { VERSION } from '../version.ts';
import { isWhole, recordIn, sha256, writeFolder } from './part-folder.ts';

export interface PartWork {
  readonly ready: ReadyJob;
  readonly part: JobPart;
  readonly make: MakeParts;
  /** Folder for its files. */
  readonly folder: string;
  /** Whether it is made even when nothing that it depends on has changed. */
  readonly isForcedAnew: boolean;
  /** Whether files are replaced that were not made by this tool, or were changed since. */
  readonly force: boolean;
}

/**
 * Makes one part of a job into its folder, unless the folder already holds it as it would be made.
 * A part that is stopped leaves no cut file.
 */
export const makePart = async (work: PartWork): Promise<PartOutcome> => {
  const { ready, part, make, folder, isForcedAnew, force } = work;
  const kind = kindAt(folder);
  if (kind === 'link')
    return { status: 'refused', reason: `${folder} is a link to another place; remove it` };
  if (kind !== 'nothing' && kind !== 'folder')
    return { status: 'refused', reason: `${folder} is not a folder; move it away` };
  const hash = sha256(dependsOn(ready, part, VERSION));
  const known = recordIn<PartRecord>(folder);
  if (!isForcedAnew && known?.hash === hash && isWhole(folder, known))
    return outcomeOf(known, 'unchanged');
  const { result, files } = await makeJobPart(ready, part, make);
  const record = { tool: 'blankwright', hash, ...result } as const;
  const written = writeFolder(folder, files, record, force);
  if (written.foreign !== undefined)
    return { status: 'refused', reason: foreignReason(join(folder, written.foreign)) };
  return outcomeOf({ ...record, files: written.files }, 'made');
};

const outcomeOf = (record: PartRecord, status: 'made' | 'unchanged'): PartOutcome =>
  record.stopped ? { status: 'refused', reason: stopsOf(record), record } : { status, record };

const foreignReason = (path: string): string =>
  kindAt(path) === 'file'
    ? `${path} was not made by this command, or was changed since. Move it away, or replace it with --force`
    : `${path} is not a file. Move it away`;
