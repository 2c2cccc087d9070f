import type { InputProblem } from '../input/problem.ts';

/** How the command ends. A contract with scripts that call it. */
export const EXIT = { made: 0, stopped: 1, wrongInput: 2, disk: 3 } as const;

/** What the user gave cannot be used. Carries every problem that was found. */
export class WrongInput extends Error {
  readonly problems: readonly InputProblem[];

  constructor(problems: readonly InputProblem[]) {
    super(problems.map(problemLine).join('\n'));
    this.problems = problems;
  }
}

/** The disk refused. Carries the same as a problem, for programs that read along. */
export class DiskRefused extends Error {
  readonly problem: InputProblem;

  /** `doing` says in the past tense what failed; `place` is the folder or file that was asked for. */
  constructor(doing: string, place: string, error: unknown) {
    super(diskSentence(doing, error));
    this.problem = { input: 'out', given: `'${place}'`, allowed: 'a folder that can be written to', mend: diskReason(error) };
  }
}

/** One problem as a line of text. Paths and flags stand in it as they were typed: nothing in them may steer a terminal. */
export const problemLine = ({ input, given, allowed, mend }: InputProblem): string => {
  const line = `${input}: given ${given}; allowed: ${allowed}${mend === undefined ? '' : `. ${mend[0]?.toUpperCase()}${mend.slice(1)}`}`;
  return line.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu, ' ');
};

/** A failing call of the file system as a sentence. */
export const diskSentence = (doing: string, error: unknown): string => `${doing}: ${diskReason(error)}.`;

/** Why the file system refused, without a full stop. */
export const diskReason = (error: unknown): string => {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return REASONS[code] ?? `the system refused (${code === '' ? String(error) : code})`;
};

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'no permission. Choose another folder with --out',
  EPERM: 'not permitted. Choose another folder with --out',
  EROFS: 'the disk is read-only. Choose another folder with --out',
  ENOSPC: 'the disk is full. Make room, or choose another folder with --out',
  EFBIG: 'a file would be larger than is allowed here. Choose another folder with --out',
  EDQUOT: 'the quota is used up. Make room, or choose another folder with --out',
  ENOTDIR: 'something on the way there is a file, not a folder. Choose another folder with --out',
  EEXIST: 'something that is not a folder stands there already. Choose another folder with --out',
  EISDIR: 'a folder stands where the file should go. Choose another name or folder',
  ELOOP: 'links on the way there go round in a circle. Choose another folder with --out',
  ENAMETOOLONG: 'the name is too long for this file system. Choose a shorter one',
  ENOENT: 'it does not exist',
};
