import type { LaidSheet } from '../../model/laid.ts';
import { readLayout } from '../../use/laid/read-layout.ts';
import { WrongInput } from '../failure.ts';
import { readTextFile } from '../read-text-file.ts';

/** Limit on the size of a layout, enough for some hundred thousand parts. */
const LARGEST_BYTES = 20_000_000;

/** The flag by which a layout is followed. */
export const LAID_FLAG = {
  type: 'string',
  describe: 'File of what lay JOB.yaml --json printed: the sheets that the parts are laid on',
} as const;

/** Reads a layout that was printed. Throws `WrongInput` with what is wrong with it. */
export const loadLayout = async (path: string): Promise<readonly LaidSheet[]> => {
  const text = await readTextFile(path, {
    input: 'laid',
    allowed: 'a file of what blankwright lay JOB.yaml --json printed',
    tooLarge: 'lay several jobs, each by itself',
    mostBytes: LARGEST_BYTES,
  });
  const read = readLayout(text);
  if (!read.ok) throw new WrongInput(read.problems);
  return read.sheets;
};
