import { type PaperMark, paperMarkWords } from '../../model/paper-mark.ts';
import { setsOf } from '../../use/assembly/assembled.ts';
import type { MadePart } from '../../use/made-part.ts';
import { cutFileMark } from '../../use/outputs/cut-file-mark.ts';
import type { PaperAnswer } from './questions.ts';

/** Which part of a job a paper is of; parts are made, the likely ones first, until one is found. */
export const paperFound = async (
  mark: PaperMark,
  names: readonly string[],
  madeOf: (index: number) => Promise<readonly MadePart[]>,
): Promise<PaperAnswer> => {
  for (const index of likelyFirst(mark, names)) {
    const found = await paperAmong(mark, index, await madeOf(index));
    if (found !== undefined) return found;
  }
  return { words: paperMarkWords(mark), index: null, blank: 0, state: 'not told' };
};

/**
 * What of a job's part a paper is of, and whether it is cut from the same file today; `undefined` where it
 * is of none of its blanks, and of no whole that they are welded to.
 */
const paperAmong = async (
  mark: PaperMark,
  index: number,
  made: readonly MadePart[],
): Promise<PaperAnswer | undefined> => {
  const blank = made.findIndex(({ result, base }) => [result.name, base].includes(mark.part));
  const set = setsOf(made).find(({ name, base }) => [name, base].includes(mark.part));
  const of = set?.parts ?? made.slice(blank, blank + 1);
  if (of.length === 0) return undefined;
  const now = await cutFileMark(
    mark.part,
    mark.revision,
    of.flatMap((part) => part.files()),
  );
  return {
    words: paperMarkWords(mark),
    index,
    blank: Math.max(0, blank),
    state: mark.sha === undefined ? 'not told' : mark.sha === now.sha ? 'same' : 'changed',
  };
};

/** Parts whose names the paper's begins with come first: one of them it is nearly always. */
const likelyFirst = ({ part }: PaperMark, names: readonly string[]): readonly number[] => {
  const isLikely = (i: number): number => Number(part.startsWith(names[i] ?? ''));
  return names.map((_, i) => i).toSorted((a, b) => isLikely(b) - isLikely(a));
};
