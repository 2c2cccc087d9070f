import { closeSync, mkdirSync, openSync, readFileSync, unlinkSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { DiskRefused, WrongInput } from '../failure.ts';

const NAME = '.running';

/** Keeps a folder to one run at a time, for as long as `work` takes. A lock that a run left behind when it was killed is taken over. */
export const withLock = async <T>(folder: string, work: () => Promise<T>): Promise<T> => {
  const path = join(folder, NAME);
  take(folder, path);
  try {
    return await work();
  } finally {
    release(path);
  }
};

const take = (folder: string, path: string): void => {
  try {
    mkdirSync(folder, { recursive: true });
    write(path);
  } catch (error) {
    if (!hasCode(error, 'EEXIST')) throw new DiskRefused(`Nothing was written to ${folder}`, folder, error);
    const owner = Number(textOf(path));
    if (owner !== process.pid && isAlive(owner)) {
      throw new WrongInput([{ input: 'out', given: `${folder}, into which another run (process ${owner}) is writing`, allowed: 'a folder of which no other run makes use', mend: `wait for it to end, or remove ${path} if it has` }]);
    }
    release(path);
    try {
      write(path);
    } catch (again) {
      throw new DiskRefused(`Nothing was written to ${folder}`, folder, again);
    }
  }
};

const write = (path: string): void => {
  const file = openSync(path, 'wx');
  try {
    writeSync(file, String(process.pid));
  } finally {
    closeSync(file);
  }
};

const release = (path: string): void => {
  try {
    unlinkSync(path);
  } catch {
    // Somebody has removed it, or the folder with it.
  }
};

const textOf = (path: string): string => {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return '';
  }
};

const isAlive = (pid: number): boolean => {
  if (!Number.isInteger(pid) || pid <= 0) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return hasCode(error, 'EPERM');
  }
};

const hasCode = (error: unknown, code: string): boolean => error instanceof Error && 'code' in error && error.code === code;
