import { type PaperMark, paperMarkWords } from '../../model/paper-mark.ts';
import { setsOf } from '../../use/assembly/assembled.ts';
import type { TextFile } from '../../model/output-file.ts';
import type { MadePart, MadeTube } from '../../use/made-part.ts';
import { patternFiles } from '../../use/outputs/coped-files.ts';
import { cutFileMark } from '../../use/outputs/cut-file-mark.ts';
import type { PaperAnswer } from './questions.ts';

/** What a part is made of. */
export interface AllOfPart {
  readonly parts: readonly MadePart[];
  readonly tubes: readonly MadeTube[];
}

/** Which part of a job a paper is of; parts are made, the likely ones first, until one is found. */
export const paperFound = async (
  mark: PaperMark,
  names: readonly string[],
  madeOf: (index: number) => Promise<AllOfPart>,
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
  { parts: made, tubes }: AllOfPart,
): Promise<PaperAnswer | undefined> => {
  const tube = tubes.findIndex(({ result, base }) => [result.name, base].includes(mark.part));
  if (tube >= 0)
    return {
      words: paperMarkWords(mark),
      index,
      blank: made.length + tube,
      state: await stateOf(mark, filesOfTube(tubes[tube] as MadeTube)),
    };
  const blank = made.findIndex(({ result, base }) => [result.name, base].includes(mark.part));
  const set = setsOf(made).find(({ name, base }) => [name, base].includes(mark.part));
  const of = set?.parts ?? made.slice(blank, blank + 1);
  if (of.length === 0) return undefined;
  return {
    words: paperMarkWords(mark),
    index,
    blank: Math.max(0, blank),
    state: await stateOf(
      mark,
      of.flatMap((part) => part.files()),
    ),
  };
};

/** Whether a paper was printed for files as they are today. */
const stateOf = async (
  mark: PaperMark,
  files: readonly TextFile[],
): Promise<PaperAnswer['state']> => {
  if (mark.sha === undefined) return 'not told';
  const now = await cutFileMark(mark.part, mark.revision, files);
  return mark.sha === now.sha ? 'same' : 'changed';
};

/** What is cut by: the patterns of a tube; one that is bent has none, and its papers tell of none. */
const filesOfTube = (made: MadeTube): readonly TextFile[] =>
  made.tube.kind === 'bent' ? [] : patternFiles(made.tube.patterns(made.result.name), made);

/** Parts whose names the paper's begins with come first: one of them it is nearly always. */
const likelyFirst = ({ part }: PaperMark, names: readonly string[]): readonly number[] => {
  const isLikely = (i: number): number => Number(part.startsWith(names[i] ?? ''));
  return names.map((_, i) => i).toSorted((a, b) => isLikely(b) - isLikely(a));
};
