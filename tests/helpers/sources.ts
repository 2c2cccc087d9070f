import { readdirSync, readFileSync } from 'node:fs';
import { join, sep } from 'node:path';

export interface Source {
  readonly path: string;
  readonly text: string;
  /** The text without comments, which may speak of what the code must not touch. */
  readonly code: string;
}

export const sourcesIn = (folder: string): Source[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => join(folder, name).split(sep).join('/'))
    .filter((path) => /\.(?:tsx?|mjs|cjs|py|yaml)$/.test(path))
    .sort()
    .map((path) => {
      const text = readFileSync(path, 'utf8');
      return { path, text, code: text.replace(/\/\*[^]*?\*\/|(?<=^|\s)\/\/.*$/gm, '') };
    });

export const library = [...sourcesIn('src'), ...sourcesIn('templates')];
export const tests = sourcesIn('tests');
/** Paths of the files that break a rule. The list should be empty; if it is not, it names them. */
export const breaking = (
  sources: readonly Source[],
  isBroken: (source: Source) => boolean,
): string[] => sources.filter(isBroken).map((s) => s.path);
