import { figure } from '../../text/figures.ts';
import { isNameWord, type NameWord } from '../../model/handover.ts';
import { safeName } from '../../text/safe-name.ts';

/** Values of the words of a pattern. */
export type NameValues = Readonly<Record<NameWord, string>>;

/**
 * Greatest length of a name that every file system takes with an extension and a number behind it.
 */
const LONGEST = 79;

/** A thickness in the form of a file name: `1.5mm`. */
export const thicknessWord = (thicknessMm: number): string => `${figure(thicknessMm, 3)}mm`;

/**
 * A file name without extension, from a pattern of known words. Where it would be too long, the
 * part's own name is cut, not what follows it: quantity and thickness must stay readable.
 */
export const nameBy = (pattern: string, values: NameValues): string => {
  const safe = (word: string): string => {
    const value = isNameWord(word) ? values[word] : '';
    return value === '' ? '' : safeName(value);
  };
  const filled = (name: string): string =>
    pattern.replace(/\{([^{}]*)\}/g, (_, word: string) => (word === 'name' ? name : safe(word)));
  const name = safeName(values.name);
  const excess = filled(name).length - LONGEST;
  const times = pattern.split('{name}').length - 1;
  return safeName(
    filled(
      excess <= 0
        ? name
        : name.slice(0, Math.max(1, name.length - Math.ceil(excess / Math.max(1, times)))),
    ),
  );
};

/**
 * Keeps file names apart: one that is taken gets a number. Upper and lower case count as equal, as
 * they do on some disks.
 */
export class FileNames {
  readonly #taken = new Set<string>();

  take(base: string, extension: string): string {
    for (let n = 1; ; n += 1) {
      const name = `${base}${n === 1 ? '' : `_${n}`}.${extension}`;
      const key = name.toLowerCase();
      if (this.#taken.has(key)) continue;
      this.#taken.add(key);
      return name;
    }
  }
}
