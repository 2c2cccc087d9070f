import { lstatSync, readdirSync, rmdirSync, unlinkSync } from 'node:fs';
import { join } from 'node:path';
import { DiskRefused } from './failure.ts';

/** What is found at a path. A link counts as a link, wherever it leads. */
export type Kind = 'nothing' | 'file' | 'folder' | 'link' | 'other';

export const kindAt = (path: string): Kind => {
  try {
    const found = lstatSync(path);
    if (found.isSymbolicLink()) return 'link';
    if (found.isDirectory()) return 'folder';
    return found.isFile() ? 'file' : 'other';
  } catch (error) {
    if (hasCode(error, 'ENOENT', 'ENOTDIR')) return 'nothing';
    throw new DiskRefused(`${path} cannot be looked at`, path, error);
  }
};

export const namesIn = (folder: string): string[] => {
  try {
    return readdirSync(folder);
  } catch (error) {
    throw new DiskRefused(`${folder} cannot be looked at`, folder, error);
  }
};

/** Removes a file or a link, if it is there. */
export const remove = (path: string): void => {
  try {
    unlinkSync(path);
  } catch (error) {
    if (!hasCode(error, 'ENOENT'))
      throw new DiskRefused(`${path} could not be taken away`, path, error);
  }
};

/** Removes an empty folder. A folder into which somebody has put something meanwhile stays. */
export const removeEmpty = (folder: string): void => {
  try {
    rmdirSync(folder);
  } catch (error) {
    if (!hasCode(error, 'ENOENT', 'ENOTEMPTY', 'EEXIST'))
      throw new DiskRefused(`${folder} could not be taken away`, folder, error);
  }
};

let counter = 0;

/**
 * A name beside a place, so that the rename stays within one disk; it is this process's own. A file
 * that already has that name is never written to, because every way to fill it makes a new file or
 * fails.
 */
export const temporary = (path: string): string =>
  `${path}.${process.pid}-${Date.now()}-${counter++}.part`;

const TEMPORARY = /^(.+)\.(\d+)-\d+-\d+\.part$/;

export const isTemporary = (name: string): boolean => TEMPORARY.test(name);

/**
 * Removes files and folders that killed runs left under temporary names, if `isWanted` accepts the
 * final name. Those of a run that is still going stay. `onFolder` is given the folders among them.
 */
export const removeLeftBehind = (
  folder: string,
  isWanted: (name: string) => boolean,
  onFolder: (path: string) => void = () => undefined,
): void => {
  for (const entry of namesIn(folder)) {
    const [, name, owner] = TEMPORARY.exec(entry) ?? [];
    if (name === undefined || !isWanted(name) || isAnother(Number(owner))) continue;
    const path = join(folder, entry);
    if (kindAt(path) === 'folder') onFolder(path);
    else remove(path);
  }
};

/**
 * Whether another running process has a number. A file with the number of this process was left by
 * an earlier one.
 */
export const isAnother = (pid: number): boolean => {
  if (!Number.isInteger(pid) || pid <= 0 || pid === process.pid) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return hasCode(error, 'EPERM');
  }
};

export const hasCode = (error: unknown, ...codes: readonly string[]): boolean =>
  error instanceof Error && 'code' in error && codes.includes(String(error.code));
