import type { MadePart } from '../use/made-part.ts';
import type { MakeResult } from '../contract/part.ts';
import type { OutputFile } from '../model/output-file.ts';
import { saveAll } from './save.ts';

/** A part with all the files that are to be saved of it. */
export interface PartToSave extends Pick<MadePart, 'result' | 'mark' | 'stopped'> {
  readonly files: () => readonly OutputFile[];
}

/**
 * Saves the files of all parts into a folder, all or none, and says which went where; none when a
 * part is stopped.
 */
export const savedParts = (
  parts: readonly PartToSave[],
  folder: string,
  force: boolean,
): MakeResult['parts'] => {
  if (parts.some((p) => p.stopped)) return parts.map((p) => ({ ...p.result, files: [] }));
  const files = parts.map(({ mark, files: own }) => own().map((f) => ({ ...f, mark })));
  const paths = saveAll(folder, files.flat(), force);
  return parts.map(({ result }, i) => {
    const before = files.slice(0, i).flat().length;
    return { ...result, files: paths.slice(before, before + (files[i] ?? []).length) };
  });
};
