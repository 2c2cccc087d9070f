import { createHash } from 'node:crypto';
import { readFileSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import type { FolderRecord, RecordedFile } from '../../contract/job.ts';
import type { OutputFile } from '../../model/output-file.ts';
import { kindAt, namesIn, remove, removeEmpty, removeLeftBehind, temporary } from '../disk.ts';
import { DiskRefused } from '../failure.ts';
import { saveAll } from '../save.ts';

/** Name of the record that lists the contents of a folder of ours. */
export const RECORD = 'part.json';
/**
 * Record that exists while the folder is being written. It lists the files that are ours even if
 * the run does not end, as they were and as they will be.
 */
const MAKING = '.making.json';

export const sha256 = (contents: string | Uint8Array): string =>
  createHash('sha256').update(contents).digest('hex');

/**
 * The record of a folder, as far as this tool made it; `undefined` where it did not, or there is
 * none.
 */
export const recordIn = <R extends FolderRecord>(
  folder: string,
  file: string = RECORD,
): R | undefined => {
  const path = join(folder, file);
  const found =
    kindAt(path) === 'file' ? (jsonIn(path) as Partial<R> | null | undefined) : undefined;
  const isRecord =
    found?.tool === 'blankwright' &&
    typeof found.hash === 'string' &&
    Array.isArray(found.files) &&
    found.files.every(isFile);
  return isRecord ? (found as R) : undefined;
};

const isFile = (file: unknown): boolean =>
  typeof file === 'object' &&
  file !== null &&
  'name' in file &&
  isPlainName(file.name) &&
  'sha256' in file &&
  typeof file.sha256 === 'string';

/**
 * A name without a path, because a record that somebody has edited must not lead out of its folder.
 */
const isPlainName = (name: unknown): boolean =>
  typeof name === 'string' && /^[\w][\w.-]*$/.test(name);

const jsonIn = (path: string): unknown => {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return undefined;
  }
};

/** Whether a folder holds what its record says, and the run that wrote it was completed. */
export const isWhole = (folder: string, { files }: FolderRecord): boolean =>
  kindAt(join(folder, MAKING)) === 'nothing' &&
  files.every((file) => stateOf(folder, file) === 'same');

type State = 'missing' | 'same' | 'changed';

const stateOf = (folder: string, { name, sha256: wanted }: RecordedFile): State => {
  const path = join(folder, name);
  const kind = kindAt(path);
  if (kind === 'nothing') return 'missing';
  return kind === 'file' && sha256Of(path) === wanted ? 'same' : 'changed';
};

/** The file's digest; `undefined` where it may not be read and so cannot be judged. */
const sha256Of = (path: string): string | undefined => {
  try {
    return sha256(readFileSync(path));
  } catch {
    return undefined;
  }
};

/**
 * Files in a folder that this tool wrote, or that an interrupted run was writing, and that nobody
 * has changed since.
 */
const ownFiles = (folder: string, file: string): readonly RecordedFile[] =>
  [file, MAKING]
    .flatMap((name) => recordIn(folder, name)?.files ?? [])
    .filter((one) => stateOf(folder, one) === 'same');

/** Names of those records in a folder that are ours. */
const ownRecords = (folder: string, file: string): string[] =>
  [file, MAKING].filter((name) => recordIn(folder, name) !== undefined);

/** Whether a run of ours has made this folder, or begun to. */
export const isOurs = (folder: string): boolean => ownRecords(folder, RECORD).length > 0;

/**
 * Writes files into a folder with a record of them in `file`, and removes those of an earlier run
 * that are no longer made. A file that this tool did not write, or that was changed since, is not
 * touched unless forced: its name is returned and nothing is written. Anything that is not a file
 * stays in any case. If the run is interrupted at any moment, the next run can go on.
 */
export const writeFolder = (
  folder: string,
  files: readonly OutputFile[],
  record: Omit<FolderRecord, 'files'>,
  force: boolean,
  file = RECORD,
): { readonly foreign: string | undefined; readonly files: readonly RecordedFile[] } => {
  const known = ownFiles(folder, file);
  const own = new Set([...known.map((f) => f.name), ...ownRecords(folder, file)]);
  const names = [...files.map((f) => f.name), file];
  const foreign = [...names, MAKING].find((name) =>
    isInTheWay(join(folder, name), own.has(name), force),
  );
  if (foreign !== undefined) return { foreign, files: [] };
  const recorded = files.map(({ name, contents }): RecordedFile => ({
    name,
    sha256: sha256(contents),
    bytes: Buffer.byteLength(contents),
  }));
  const whole = { ...record, files: recorded };
  mark(folder, { tool: 'blankwright', hash: '', files: [...known, ...recorded] });
  saveAll(
    folder,
    [...files, { name: file, contents: `${JSON.stringify(whole)}\n` }].map((f) => ({
      ...f,
      mark: '',
    })),
    true,
  );
  for (const name of own) if (!names.includes(name) && name !== MAKING) remove(join(folder, name));
  removeLeftBehind(folder, () => true, removeAside);
  remove(join(folder, MAKING));
  return { foreign: undefined, files: recorded };
};

const isInTheWay = (path: string, isOwn: boolean, force: boolean): boolean => {
  const kind = kindAt(path);
  return kind !== 'nothing' && (kind !== 'file' || (!isOwn && !force));
};

/**
 * Written before the first file, so that at no moment there are files without a record. A new
 * folder appears together with it.
 */
const mark = (folder: string, making: FolderRecord): void => {
  const file = { name: MAKING, contents: JSON.stringify(making), mark: '' };
  if (kindAt(folder) !== 'nothing') {
    saveAll(folder, [file], true);
    return;
  }
  const aside = temporary(folder);
  try {
    saveAll(aside, [file], true);
    rename(aside, folder);
  } catch (error) {
    if (kindAt(aside) === 'folder') removeAside(aside);
    throw error;
  }
};

const rename = (from: string, to: string): void => {
  try {
    renameSync(from, to);
  } catch (error) {
    throw new DiskRefused(`${from} cannot become ${to}`, to, error);
  }
};

/**
 * Removes what this tool wrote into a folder, and the folder itself where nothing else is in it.
 * Returns the names that stay.
 */
export const clearFolder = (folder: string): readonly string[] => {
  const records = ownRecords(folder, RECORD);
  for (const { name } of ownFiles(folder, RECORD)) remove(join(folder, name));
  removeLeftBehind(folder, () => true);
  const left = namesIn(folder).filter((name) => !records.includes(name));
  if (left.length === 0) {
    // The folder is moved aside together with its records, so that at no moment there is an empty
    // folder without one.
    const aside = temporary(folder);
    rename(folder, aside);
    removeAside(aside);
  } else for (const name of records) remove(join(folder, name));
  return left;
};

/** Removes a folder that was being made or removed: its records and the folder itself. */
const removeAside = (aside: string): void => {
  for (const name of ownRecords(aside, RECORD)) remove(join(aside, name));
  removeLeftBehind(aside, () => true);
  removeEmpty(aside);
};
