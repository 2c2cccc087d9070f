import {
  constants,
  copyFileSync,
  linkSync,
  readFileSync,
  renameSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { hasCode, isAnother, kindAt, remove, temporary } from '../disk.ts';
import { DiskRefused, WrongInput } from '../failure.ts';
import { saveAll } from '../save.ts';

export const LOCK_NAME = '.running';

/**
 * Keeps a folder to one run at a time, for as long as `work` takes. A lock that a killed run left
 * behind is taken over. `work` may check that it still has the folder; the check throws when the
 * lock was removed, or taken by another run.
 */
export const withLock = async <T>(
  folder: string,
  work: (assertHeld: () => void) => Promise<T>,
): Promise<T> => {
  saveAll(folder, [], true);
  const path = join(folder, LOCK_NAME);
  take(folder, path);
  try {
    return await work(() => assertHeld(folder, path));
  } finally {
    if (ownerOf(path) === OWN) remove(path);
  }
};

const OWN = String(process.pid);

/** Number of tries, since other runs may take a lock over, or release it, at the same moment. */
const MOST_TRIES = 50;

const take = (folder: string, path: string): void => {
  for (let tries = 0; tries < MOST_TRIES; tries += 1) {
    if (isClaimed(folder, path)) return;
    const kind = kindAt(path);
    const owner = kind === 'file' ? ownerOf(path) : undefined;
    if (kind === 'nothing' || (kind === 'file' && owner === undefined)) continue;
    if (owner === undefined || !/^\d*$/.test(owner))
      throw new WrongInput([
        {
          input: 'out',
          given: `${path}, which this command did not make`,
          allowed: 'a folder of which no other run makes use',
          mend: `move ${path} away`,
        },
      ]);
    if (isAnother(Number(owner))) throw inUse(folder, path, owner);
    takeAway(path, owner);
  }
  throw inUse(folder, path, 'unknown');
};

const inUse = (folder: string, path: string, owner: string): WrongInput =>
  new WrongInput([
    {
      input: 'out',
      given: `${folder}, into which another run (process ${owner}) is writing`,
      allowed: 'a folder of which no other run makes use',
      mend: `wait for it to end, or remove ${path} if it has`,
    },
  ]);

/** The lock appears with its owner already in it, so that at no moment it seems to be nobody's. */
const isClaimed = (folder: string, path: string): boolean => {
  const own = temporary(path);
  try {
    writeFileSync(own, OWN, { flag: 'wx' });
    linked(own, path);
    return true;
  } catch (error) {
    // ENOENT means that another run took `own` for left behind.
    if (hasCode(error, 'EEXIST', 'ENOENT') && kindAt(folder) === 'folder') return false;
    throw new DiskRefused(`Nothing was written to ${folder}`, folder, error);
  } finally {
    remove(own);
  }
};

/**
 * A second name for a file, or a copy where the disk has no such thing, as on a memory stick. Fails
 * where the name is taken.
 */
const linked = (from: string, to: string): void => {
  try {
    linkSync(from, to);
  } catch (error) {
    if (!hasCode(error, 'EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK')) throw error;
    copyFileSync(from, to, constants.COPYFILE_EXCL);
  }
};

/**
 * Removes the lock of a dead run. If two runs try this at once, one of them may have caught the
 * other's fresh lock, and puts it back.
 */
const takeAway = (path: string, dead: string): void => {
  const aside = temporary(path);
  try {
    renameSync(path, aside);
    if (ownerOf(aside) !== dead) linked(aside, path);
  } catch (error) {
    if (!hasCode(error, 'ENOENT', 'EEXIST'))
      throw new DiskRefused(`${path} could not be taken away`, path, error);
  } finally {
    remove(aside);
  }
};

/** Owner of a lock as written in it; `undefined` when the lock is gone. */
const ownerOf = (path: string): string | undefined => {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return undefined;
  }
};

const assertHeld = (folder: string, path: string): void => {
  try {
    const owner = readFileSync(path, 'utf8');
    if (owner !== OWN) throw inUse(folder, path, owner);
  } catch (error) {
    if (error instanceof WrongInput) throw error;
    throw new DiskRefused(
      `The job was not finished, for ${path} was taken away while it ran`,
      folder,
      error,
    );
  }
};
