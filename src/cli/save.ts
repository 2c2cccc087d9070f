import { randomBytes } from 'node:crypto';
import { lstat, mkdir, open, readFile, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { OutputFile } from '../job.ts';
import { DiskRefused, diskSentence, WrongInput } from './failure.ts';

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
  await make(folder);
  const targets = files.map((f) => {
    const path = join(folder, f.name);
    return { ...f, path, from: `${path}.${randomBytes(6).toString('hex')}.part` };
  });
  for (const t of targets) await assertReplaceable(t.path, t.mark, force);
  try {
    const written = await Promise.allSettled(targets.map((t) => writeWhole(t.from, t.text)));
    for (const w of written) if (w.status === 'rejected') throw w.reason;
    await renameAll(targets.map((t) => ({ from: t.from, to: t.path })));
  } catch (error) {
    await Promise.all(targets.map(({ from }) => rm(from, { force: true }).catch(() => undefined)));
    throw new DiskRefused(diskSentence(`Nothing was written to ${folder}`, error));
  }
  return targets.map((t) => t.path);
};

const make = async (folder: string): Promise<void> => {
  try {
    await mkdir(folder, { recursive: true });
  } catch (error) {
    throw new DiskRefused(diskSentence(`The folder ${folder} cannot be made`, error));
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

/** A rename that fails half way is undone: earlier files keep their contents until the last one is in place. */
const renameAll = async (files: readonly { readonly from: string; readonly to: string }[]): Promise<void> => {
  const done: { readonly to: string; readonly saved: string | undefined }[] = [];
  try {
    for (const { from, to } of files) {
      const saved = await setAside(to);
      done.push({ to, saved });
      await rename(from, to);
    }
  } catch (error) {
    for (const { to, saved } of done.reverse()) {
      await (saved === undefined ? rm(to, { force: true }) : rename(saved, to));
    }
    throw error;
  }
  await Promise.all(done.flatMap(({ saved }) => (saved === undefined ? [] : [rm(saved, { force: true })])));
};

/** Moves the old file to a temporary name; `undefined` when there is none. */
const setAside = async (path: string): Promise<string | undefined> => {
  const aside = `${path}.${randomBytes(6).toString('hex')}.old`;
  try {
    await rename(path, aside);
    return aside;
  } catch (error) {
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
    throw new DiskRefused(diskSentence(`${path} cannot be looked at`, error));
  }
};

/** The whole mark, not the beginning of a longer one. */
const carries = (text: string, mark: string): boolean => ['\n', '\r', '<'].some((end) => text.includes(mark + end));

/** The mark stands near the start of every file. */
const head = async (path: string): Promise<string> => (await readFile(path, 'utf8')).slice(0, 2000);
