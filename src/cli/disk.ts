import { lstatSync, readdirSync, rmdirSync, unlinkSync } from 'node:fs';
import { join } from 'node:path';
import { DiskRefused } from './failure.ts';

/** What stands at a path. A link is a link, wherever it leads. */
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

/** Takes a file or a link away, if it is there. */
export const remove = (path: string): void => {
  try {
    unlinkSync(path);
  } catch (error) {
    if (!hasCode(error, 'ENOENT'))
      throw new DiskRefused(`${path} could not be taken away`, path, error);
  }
};

/** Takes an empty folder away. What somebody has put into it meanwhile keeps it. */
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
 * A name beside a place, so that the rename stays within one disk; of this process alone. A file
 * that stands there all the same is never written to, for every way to fill it makes a new one or
 * fails.
 */
export const temporary = (path: string): string =>
  `${path}.${process.pid}-${Date.now()}-${counter++}.part`;

const TEMPORARY = /^(.+)\.(\d+)-\d+-\d+\.part$/;

export const isTemporary = (name: string): boolean => TEMPORARY.test(name);

/**
 * Takes away what runs that were killed had not yet put in its place: what `isWanted` says so of by
 * the name that it was meant for. What belongs to a run that goes on stays. `onFolder` is given
 * those of them that are folders.
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
 * Whether a process other than this one goes by a number. What bears the number of this one was
 * left by an earlier.
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
