import {
  closeSync,
  constants,
  copyFileSync,
  fsyncSync,
  lstatSync,
  mkdirSync,
  openSync,
  readSync,
  renameSync,
  statSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import type { MarkedFile } from '../model/output-file.ts';
import { hasCode, removeLeftBehind, temporary } from './disk.ts';
import { DiskRefused, WrongInput } from './failure.ts';

/**
 * Saves files into a folder, all or none: each is written in full beside its place under a
 * temporary name, and only when all of them are on the disk are they renamed. A file that is
 * already there is replaced only when it carries the same mark, or when forced. Nothing is written
 * through a link in the folder. Files that a killed run left under temporary names are removed.
 *
 * The calls run one after the other: loading what runs them side by side takes Node longer than
 * writing a few files.
 *
 * Throws `WrongInput` for a file of somebody else's, and `DiskRefused` where the disk fails; in
 * both cases nothing has changed.
 */
export const saveAll = (folder: string, files: readonly MarkedFile[], force: boolean): string[] => {
  const targets = files.map((f) => {
    const path = join(folder, f.name);
    return { ...f, path, from: temporary(path) };
  });
  assertNamesDiffer(targets.map((t) => t.path));
  make(folder);
  for (const t of targets) assertReplaceable(t.path, t.mark, force);
  const names = new Set(files.map((f) => f.name));
  if (names.size > 0) removeLeftBehind(folder, (name) => names.has(name));
  try {
    for (const t of targets) writeWhole(t.from, t.contents);
    renameAll(targets.map((t) => ({ from: t.from, to: t.path })));
  } catch (error) {
    for (const t of targets) removeIfThere(t.from);
    throw new DiskRefused(`Nothing was written to ${folder}`, folder, error);
  }
  return targets.map((t) => t.path);
};

/**
 * Saves files with different names as `saveAll` does, and returns where each name went. No folder
 * is made for no files.
 */
export const saveNamed = (
  folder: string,
  files: readonly MarkedFile[],
  force: boolean,
): ((name: string) => string) => {
  const paths = files.length === 0 ? [] : saveAll(folder, files, force);
  const pathOf = new Map(files.map(({ name }, i) => [name, paths[i] as string]));
  return (name) => pathOf.get(name) as string;
};

/**
 * Files left behind after a failure are only a nuisance; the failure itself is what has to be told.
 */
const removeIfThere = (path: string): void => {
  try {
    unlinkSync(path);
  } catch {
    // See the comment above.
  }
};

/**
 * Throws where names meet: different names may become one when they are made safe, and some disks
 * take upper and lower case as equal.
 */
const assertNamesDiffer = (paths: readonly string[]): void => {
  const seen = new Set<string>();
  for (const path of paths) {
    const key = path.toLowerCase();
    if (seen.has(key))
      throw new WrongInput([
        {
          input: 'name',
          given: `a name that makes two files of one: ${path}`,
          allowed: 'names whose files differ',
          mend: 'choose a shorter name',
        },
      ]);
    seen.add(key);
  }
};

const make = (folder: string): void => {
  try {
    makeFolder(resolve(folder));
  } catch (error) {
    throw new DiskRefused(`The folder ${folder} cannot be made`, folder, error);
  }
};

/**
 * Makes the folder and those above it. Node's own function for this never returns from a place such
 * as /proc, where nothing can be made.
 */
const makeFolder = (path: string): void => {
  try {
    mkdirSync(path);
  } catch (error) {
    if (isFolder(path)) return;
    if (!isMissing(error) || dirname(path) === path || isFolder(dirname(path))) throw error;
    makeFolder(dirname(path));
    makeFolder(path);
  }
};

const isFolder = (path: string): boolean => {
  try {
    return statSync(path).isDirectory();
  } catch {
    return false;
  }
};

/**
 * The file is flushed to the disk before it is renamed, so that no crash leaves half a file under
 * its final name.
 */
const writeWhole = (path: string, contents: string | Uint8Array): void => {
  const file = openSync(path, 'wx');
  try {
    writeFileSync(file, contents);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
};

interface Kept {
  readonly to: string;
  /** Path of the copy of the earlier file; `undefined` when there was none. */
  readonly copy: string | undefined;
}

/**
 * Renames all files. When one rename fails, the others are undone: copies of the earlier files are
 * kept until the last one is in place, and one that cannot be put back stays.
 */
const renameAll = (files: readonly { readonly from: string; readonly to: string }[]): void => {
  const kept: Kept[] = [];
  let renamed = 0;
  try {
    for (const { to } of files) kept.push({ to, copy: copyOf(to) });
    for (const { from, to } of files) {
      renameSync(from, to);
      renamed += 1;
    }
  } catch (error) {
    kept.slice(0, renamed).forEach(putBack);
    kept.slice(renamed).forEach(letGo);
    throw error;
  }
  kept.forEach(letGo);
};

const letGo = ({ copy }: Kept): void => {
  if (copy !== undefined) removeIfThere(copy);
};

const putBack = ({ to, copy }: Kept): void => {
  try {
    if (copy === undefined) unlinkSync(to);
    else renameSync(copy, to);
  } catch {
    // The reason why the renaming failed has to be told; the other files still have to be put back.
  }
};

/**
 * A copy of the file beside it; `undefined` when there is no file. The file itself never leaves its
 * place.
 */
const copyOf = (path: string): string | undefined => {
  const copy = temporary(path);
  try {
    copyFileSync(path, copy, constants.COPYFILE_EXCL);
    return copy;
  } catch (error) {
    removeIfThere(copy);
    if (isMissing(error)) return undefined;
    throw error;
  }
};

const isMissing = (error: unknown): boolean => hasCode(error, 'ENOENT');

const assertReplaceable = (path: string, mark: string, force: boolean): void => {
  const refuse = (given: string, mend: string): never => {
    throw new WrongInput([
      {
        input: 'out',
        given,
        allowed:
          "a folder where this part's files are new, or were made by this command for the same part",
        mend,
      },
    ]);
  };
  try {
    const found = lstatSync(path);
    if (found.isSymbolicLink())
      return refuse(
        `${path}, which is a link to another place`,
        'remove the link, or choose another folder',
      );
    if (!found.isFile())
      return refuse(`${path}, which is not a file`, 'choose another folder or name');
    if (force || carries(head(path), mark)) return;
    return refuse(
      `${path}, which was not made for this part`,
      'choose another name or folder, or replace it with --force',
    );
  } catch (error) {
    if (isMissing(error)) return;
    if (error instanceof WrongInput) throw error;
    throw new DiskRefused(`${path} cannot be looked at`, path, error);
  }
};

/** Whether the text carries this very mark, and not a longer one that begins with it. */
const carries = (text: string, mark: string): boolean =>
  ['\n', '\r', '<', ' ', '"', "'"].some((end) => text.includes(mark + end));

/** Number of bytes read for the mark, which stands near the start of every file. */
const HEAD_BYTES = 2000;

const head = (path: string): string => {
  const file = openSync(path, 'r');
  try {
    const bytes = Buffer.alloc(HEAD_BYTES);
    return bytes.toString('utf8', 0, readSync(file, bytes, 0, HEAD_BYTES, 0));
  } finally {
    closeSync(file);
  }
};
