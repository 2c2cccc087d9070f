import { createHash } from 'node:crypto';
import { readFileSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import type { FolderRecord, RecordedFile } from '../../contract/job.ts';
import type { OutputFile } from '../../model/output-file.ts';
import { kindAt, namesIn, remove, removeEmpty, removeLeftBehind, temporary } from '../disk.ts';
import { DiskRefused } from '../failure.ts';
import { saveAll } from '../save.ts';

/** Says what stands in a folder of ours. */
export const RECORD = 'part.json';
/**
 * Stands there while the folder is being written: files that are ours even if the run does not end,
 * as they were and as they will be.
 */
const MAKING = '.making.json';

export const sha256 = (contents: string | Uint8Array): string =>
  createHash('sha256').update(contents).digest('hex');

/**
 * The record of a folder, as far as it was made by this tool; `undefined` where it was not, or
 * there is none.
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

/** A record that somebody has written must not lead out of its folder. */
const isPlainName = (name: unknown): boolean =>
  typeof name === 'string' && /^[\w][\w.-]*$/.test(name);

const jsonIn = (path: string): unknown => {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return undefined;
  }
};

/** Whether a folder holds what its record says, and the run that wrote it came to its end. */
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

/** `undefined` where it may not be read: then it is nobody's to judge. */
const sha256Of = (path: string): string | undefined => {
  try {
    return sha256(readFileSync(path));
  } catch {
    return undefined;
  }
};

/**
 * Files in a folder that this tool wrote, or that a run which was broken off was writing, and that
 * nobody has changed since.
 */
const ownFiles = (folder: string, file: string): readonly RecordedFile[] =>
  [file, MAKING]
    .flatMap((name) => recordIn(folder, name)?.files ?? [])
    .filter((one) => stateOf(folder, one) === 'same');

/** Those of the names that a folder's records go by which are records of ours. */
const ownRecords = (folder: string, file: string): string[] =>
  [file, MAKING].filter((name) => recordIn(folder, name) !== undefined);

/** Whether a run of ours has made this folder, or begun to. */
export const isOurs = (folder: string): boolean => ownRecords(folder, RECORD).length > 0;

/**
 * Writes files into a folder with a record of them in `file`, and takes away those of an earlier
 * run that are no longer made. A file that this tool did not write, or that was changed since, is
 * not touched: its name is given back, and nothing is written, unless forced; what is no file stays
 * even then. Broken off at any moment, the next run finds its way.
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
 * Before the first file is written, so that no moment leaves files that nobody knows of. A new
 * folder appears with it.
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
 * Takes away what this tool wrote into a folder, and the folder itself where nothing else stands in
 * it. Gives the names that stay.
 */
export const clearFolder = (folder: string): readonly string[] => {
  const records = ownRecords(folder, RECORD);
  for (const { name } of ownFiles(folder, RECORD)) remove(join(folder, name));
  removeLeftBehind(folder, () => true);
  const left = namesIn(folder).filter((name) => !records.includes(name));
  if (left.length === 0) {
    // Out of the way with its records, so that no moment leaves an empty folder that nobody knows
    // of.
    const aside = temporary(folder);
    rename(folder, aside);
    removeAside(aside);
  } else for (const name of records) remove(join(folder, name));
  return left;
};

/** Takes away a folder that was being made or taken away: its records and itself. */
const removeAside = (aside: string): void => {
  for (const name of ownRecords(aside, RECORD)) remove(join(aside, name));
  removeLeftBehind(aside, () => true);
  removeEmpty(aside);
};
