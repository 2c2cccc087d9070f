import { safeName } from '../../text/safe-name.ts';
import { sha256 } from '../../text/sha256.ts';
import { type Entry, utf8 } from './archive.ts';
import type { PackedAssembly } from './assemblies.ts';
import type { ListedPart } from './parts-list.ts';

export const MANIFEST = 'manifest.json';
export const PARTS_LIST = 'parts.csv';

/**
 * The line of a manifest by which its archive is recognised, complete as it stands near the
 * archive's start. `sheet` says what the archive is cut from.
 */
export const markLine = (job: string, sheet: string): string =>
  `"mark": "blankwright pack ${safeName(job)} ${encodeURIComponent(job.replace(/\p{Cs}/gu, '?'))} ${safeName(sheet)}",`;

/**
 * Contents of an archive: every other file in it with its digest, and its parts; `wholes` are files
 * that are of several. The mark has a line of its own.
 */
export const manifest = async (
  mark: string,
  job: string,
  files: readonly Entry[],
  parts: readonly ListedPart[],
  wholes: readonly Pick<PackedAssembly, 'name' | 'of'>[] = [],
): Promise<Entry> => {
  const listed = await Promise.all(
    files.map(async ({ name, bytes }) => ({
      file: name,
      sha256: await sha256(bytes),
      parts: parts
        .filter(
          (p) =>
            p.file === name ||
            p.drawing === name ||
            wholes.some((whole) => whole.name === name && whole.of.includes(p)),
        )
        .map(partOf),
    })),
  );
  const rest = JSON.stringify({ job, files: listed }, null, 2);
  return { name: MANIFEST, bytes: utf8(`{\n  ${mark}\n${rest.slice(2)}\n`) };
};

const partOf = ({
  part: {
    made: { result },
    revision,
  },
}: ListedPart) => ({
  name: result.name,
  hand: result.hand,
  quantity: result.quantity,
  revision: revision ?? null,
});
