import { randomBytes } from 'node:crypto';
import { constants, copyFile, lstat, mkdir, open, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { OutputFile } from '../job.ts';
import { DiskRefused, WrongInput } from './failure.ts';

/** A file to save, and the mark by which an earlier one of the same part is known. */
export interface MarkedFile extends OutputFile {
  readonly mark: string;
}

/**
 * Saves files into a folder, all or none: each is written in full beside its place under a temporary name, and only
 * when all of them are on the disk are they renamed. A file that stands there already is replaced only when it carries
 * the same mark, or when forced. Nothing is written through a link in the folder.
 *
 * Throws `WrongInput` for a file of somebody else's, `DiskRefused` where the disk does; then nothing has changed.
 */
export const saveAll = async (folder: string, files: readonly MarkedFile[], force: boolean): Promise<string[]> => {
  const targets = files.map((f) => {
    const path = join(folder, f.name);
    return { ...f, path, from: temporary(path) };
  });
  assertNamesDiffer(targets.map((t) => t.path));
  await make(folder);
  for (const t of targets) await assertReplaceable(t.path, t.mark, force);
  try {
    // All of them are awaited before any is given up, or a late one would be left behind.
    const written = await Promise.allSettled(targets.map((t) => writeWhole(t.from, t.text)));
    for (const w of written) if (w.status === 'rejected') throw w.reason;
    await renameAll(targets.map((t) => ({ from: t.from, to: t.path })));
  } catch (error) {
    await Promise.all(targets.map((t) => removeIfThere(t.from)));
    throw new DiskRefused(`Nothing was written to ${folder}`, folder, error);
  }
  return targets.map((t) => t.path);
};

/** Beside its place, so that the rename stays within one disk. */
const temporary = (path: string): string => `${path}.${randomBytes(6).toString('hex')}.part`;

/** What is left behind of a failure is a nuisance only; the failure itself is what has to be told. */
const removeIfThere = (path: string): Promise<void> => rm(path, { force: true }).catch(() => undefined);

/** Names that differ may become one when they are made safe, and capitals do not count on every disk. */
const assertNamesDiffer = (paths: readonly string[]): void => {
  const seen = new Set<string>();
  for (const path of paths) {
    const key = path.toLowerCase();
    if (seen.has(key)) throw new WrongInput([{ input: 'name', given: `a name that makes two files of one: ${path}`, allowed: 'names whose files differ', mend: 'choose a shorter name' }]);
    seen.add(key);
  }
};

const make = async (folder: string): Promise<void> => {
  try {
    await mkdir(folder, { recursive: true });
  } catch (error) {
    throw new DiskRefused(`The folder ${folder} cannot be made`, folder, error);
  }
};

/** On the disk before it is renamed, so that no crash leaves half a file under its final name. */
const writeWhole = async (path: string, text: string): Promise<void> => {
  const file = await open(path, 'wx');
  try {
    await file.writeFile(text);
    await file.sync();
  } finally {
    await file.close();
  }
};

/** A rename that fails half way is undone: copies of the earlier files are kept until the last one is in place. */
const renameAll = async (files: readonly { readonly from: string; readonly to: string }[]): Promise<void> => {
  const kept: { readonly to: string; readonly copy: string | undefined }[] = [];
  try {
    for (const { to } of files) kept.push({ to, copy: await copyOf(to) });
  } catch (error) {
    await removeCopies(kept);
    throw error;
  }
  let renamed = 0;
  try {
    for (const { from, to } of files) {
      await rename(from, to);
      renamed += 1;
    }
  } catch (error) {
    for (const { to, copy } of kept.slice(0, renamed)) await (copy === undefined ? rm(to, { force: true }) : rename(copy, to));
    await removeCopies(kept);
    throw error;
  }
  await removeCopies(kept);
};

const removeCopies = async (kept: readonly { readonly copy: string | undefined }[]): Promise<void> => {
  await Promise.all(kept.map(({ copy }) => (copy === undefined ? undefined : removeIfThere(copy))));
};

/** A copy of the file beside it; `undefined` when there is none. The file itself never leaves its place. */
const copyOf = async (path: string): Promise<string | undefined> => {
  const copy = temporary(path);
  try {
    await copyFile(path, copy, constants.COPYFILE_EXCL);
    return copy;
  } catch (error) {
    await removeIfThere(copy);
    if (isMissing(error)) return undefined;
    throw error;
  }
};

const isMissing = (error: unknown): boolean => error instanceof Error && 'code' in error && error.code === 'ENOENT';

const assertReplaceable = async (path: string, mark: string, force: boolean): Promise<void> => {
  const refuse = (given: string, mend: string): never => {
    throw new WrongInput([{ input: 'out', given, allowed: "a folder where this part's files are new, or were made by this command for the same part", mend }]);
  };
  try {
    const found = await lstat(path);
    if (found.isSymbolicLink()) return refuse(`${path}, which is a link to another place`, 'remove the link, or choose another folder');
    if (!found.isFile()) return refuse(`${path}, which is not a file`, 'choose another folder or name');
    if (force || carries(await head(path), mark)) return;
    return refuse(`${path}, which was not made for this part`, 'choose another name or folder, or replace it with --force');
  } catch (error) {
    if (isMissing(error)) return;
    if (error instanceof WrongInput) throw error;
    throw new DiskRefused(`${path} cannot be looked at`, path, error);
  }
};

/** The whole mark, not the beginning of a longer one. */
const carries = (text: string, mark: string): boolean => ['\n', '\r', '<'].some((end) => text.includes(mark + end));

/** The mark stands near the start of every file. */
const HEAD_BYTES = 2000;

const head = async (path: string): Promise<string> => {
  const file = await open(path, 'r');
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(HEAD_BYTES), 0, HEAD_BYTES, 0);
    return buffer.toString('utf8', 0, bytesRead);
  } finally {
    await file.close();
  }
};
