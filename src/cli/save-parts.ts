import type { MakeResult } from '../contract/part.ts';
import type { MadeFiles } from '../use/make/make-files.ts';
import { saveAll } from './save.ts';

/**
 * Saves the files of all parts into a folder, all or none, and gives the result with the paths that
 * they went to. No folder is made for no files.
 */
export const savedParts = (
  { result, files }: MadeFiles,
  folder: string,
  force: boolean,
): MakeResult['parts'] => {
  if (files.length === 0) return result.parts;
  const paths = saveAll(folder, files, force);
  const pathOf = new Map(files.map(({ name }, i) => [name, paths[i] as string]));
  return result.parts.map((part) => ({
    ...part,
    files: part.files.map((name) => pathOf.get(name) as string),
  }));
};
