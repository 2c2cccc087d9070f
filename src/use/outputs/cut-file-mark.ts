import type { TextFile } from '../../model/output-file.ts';
import { type PaperMark, SHA_DIGITS } from '../../model/paper-mark.ts';
import { sha256 } from '../../text/sha256.ts';

/**
 * The mark of papers of a part, by the DXF among its files; of a whole of several pieces by theirs, one
 * behind the other.
 */
export const cutFileMark = async (
  part: string,
  revision: string | undefined,
  files: readonly TextFile[],
): Promise<PaperMark> => {
  const cut = files.filter(({ name }) => name.endsWith('.dxf'));
  const [first] = cut;
  if (first === undefined) return { part, revision };
  const bytes = new TextEncoder().encode(cut.map(({ contents }) => contents).join(''));
  return {
    part,
    revision,
    ...(cut.length === 1 && { file: first.name }),
    sha: (await sha256(bytes)).slice(0, SHA_DIGITS),
  };
};
