import { createHash } from 'node:crypto';
import { existsSync, lstatSync, readdirSync, readFileSync, rmdirSync, unlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { OutputFile } from '../../model/output-file.ts';
import { DiskRefused } from '../failure.ts';
import { saveAll } from '../save.ts';

/** What stands in a folder of ours, and what it was made from. */
export interface FolderRecord {
  readonly tool: 'blankwright';
  /** Of everything that the files depend on. */
  readonly hash: string;
  readonly files: readonly RecordedFile[];
}

export interface RecordedFile {
  readonly name: string;
  readonly sha256: string;
  readonly bytes: number;
}

/** Says what stands in a folder of ours. */
export const RECORD = 'part.json';
/** Stands there while the folder is being written: names that are ours even if the run does not end. */
const MAKING = '.making.json';

export const sha256 = (contents: string | Uint8Array): string => createHash('sha256').update(contents).digest('hex');

/** The record of a folder, as far as it was made by this tool; `undefined` where it was not, or there is none. */
export const recordIn = <R extends FolderRecord>(folder: string, file: string = RECORD): R | undefined => {
  const found = jsonIn(join(folder, file)) as Partial<R> | undefined;
  const isOurs = found?.tool === 'blankwright' && typeof found.hash === 'string' && Array.isArray(found.files) && found.files.every(isFile);
  return isOurs ? (found as R) : undefined;
};

const isFile = (file: unknown): boolean => typeof file === 'object' && file !== null && 'name' in file && isPlainName(file.name) && 'sha256' in file && typeof file.sha256 === 'string';

/** A record that somebody has written must not lead out of its folder. */
const isPlainName = (name: unknown): boolean => typeof name === 'string' && /^[\w][\w.-]*$/.test(name);

const jsonIn = (path: string): unknown => {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return undefined;
  }
};

/** Whether a folder holds what its record says, and the run that wrote it came to its end. */
export const isWhole = (folder: string, { files }: FolderRecord): boolean => !existsSync(join(folder, MAKING)) && files.every((file) => stateOf(folder, file) === 'same');

type State = 'missing' | 'same' | 'changed';

const stateOf = (folder: string, { name, sha256: wanted }: RecordedFile): State => {
  const path = join(folder, name);
  const found = lstatSync(path, { throwIfNoEntry: false });
  if (found === undefined) return 'missing';
  return found.isFile() && sha256(readFileSync(path)) === wanted ? 'same' : 'changed';
};

/** Names in a folder that this tool wrote and nobody has changed since, or that a run which was broken off was writing. */
const ownNames = (folder: string, record: FolderRecord | undefined, file: string): Set<string> => {
  const making = jsonIn(join(folder, MAKING));
  const begun = Array.isArray(making) ? making.filter((name): name is string => isPlainName(name)) : [];
  const kept = (record?.files ?? []).filter((file) => stateOf(folder, file) !== 'changed').map(({ name }) => name);
  return new Set([...begun, ...kept, ...(record === undefined ? [] : [file])]);
};

/**
 * Writes files into a folder with a record of them in `file`, and takes away those of an earlier run that are no
 * longer made. A file that this tool did not write, or that was changed since, is not touched: its name is given back,
 * and nothing is written, unless forced. Broken off at any moment, the next run finds its way.
 */
export const writeFolder = (folder: string, files: readonly OutputFile[], record: Omit<FolderRecord, 'files'>, force: boolean, file = RECORD): { readonly foreign: string | undefined; readonly files: readonly RecordedFile[] } => {
  const own = ownNames(folder, recordIn(folder, file), file);
  const names = [...files.map((f) => f.name), file];
  const inTheWay = names.find((name) => !own.has(name) && lstatSync(join(folder, name), { throwIfNoEntry: false }) !== undefined);
  if (inTheWay !== undefined && !force) return { foreign: inTheWay, files: [] };
  const recorded = files.map(({ name, contents }): RecordedFile => ({ name, sha256: sha256(contents), bytes: Buffer.byteLength(contents) }));
  const whole = { ...record, files: recorded };
  mark(folder, [...new Set([...own, ...names])]);
  saveAll(folder, [...files, { name: file, contents: `${JSON.stringify(whole)}\n` }].map((f) => ({ ...f, mark: '' })), true);
  for (const name of own) if (!names.includes(name)) remove(join(folder, name));
  removeTemporary(folder);
  remove(join(folder, MAKING));
  return { foreign: undefined, files: recorded };
};

/** Before the first file is written, so that no moment leaves files that nobody knows of. */
const mark = (folder: string, names: readonly string[]): void => {
  if (!existsSync(folder)) saveAll(folder, [], true);
  try {
    writeFileSync(join(folder, MAKING), JSON.stringify(names));
  } catch (error) {
    throw new DiskRefused(`Nothing was written to ${folder}`, folder, error);
  }
};

/** Takes away what this tool wrote into a folder, and the folder itself where nothing else stands in it. Gives the names that stay. */
export const clearFolder = (folder: string): readonly string[] => {
  for (const name of ownNames(folder, recordIn(folder), RECORD)) remove(join(folder, name));
  removeTemporary(folder);
  remove(join(folder, MAKING));
  const left = readdirSync(folder);
  if (left.length === 0) rmdirSync(folder);
  return left;
};

/** Files that a run which was killed had not yet put in their place. */
const removeTemporary = (folder: string): void => {
  for (const name of readdirSync(folder)) if (/\.\d+-\d+-\d+\.part$/.test(name)) remove(join(folder, name));
};

const remove = (path: string): void => {
  try {
    unlinkSync(path);
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && error.code === 'ENOENT')) throw new DiskRefused(`${path} could not be taken away`, path, error);
  }
};
