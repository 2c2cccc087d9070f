import { capital } from '../text/capital.ts';
import type { InputProblem } from '../forms/problem.ts';

/** Exit codes of the command: a contract with scripts that call it. */
export const EXIT = { made: 0, stopped: 1, wrongInput: 2, disk: 3 } as const;

/** The user's input cannot be used. Carries every problem that was found. */
export class WrongInput extends Error {
  readonly problems: readonly InputProblem[];

  constructor(problems: readonly InputProblem[]) {
    const more = problems.length - MOST_TOLD;
    super(
      [
        ...problems.slice(0, more === 1 ? undefined : MOST_TOLD).map(problemLine),
        ...(more > 1 ? [`... and ${more} more; --json lists all of them.`] : []),
      ].join('\n'),
    );
    this.problems = problems;
  }
}

/** Most problems that are told, since nobody reads more before mending the first. */
const MOST_TOLD = 20;

/** The disk refused. Carries the reason as a problem too, for programs that read the output. */
export class DiskRefused extends Error {
  readonly problem: InputProblem;

  /**
   * `doing` says in the past tense what failed; `place` is the folder or file that was asked for.
   */
  constructor(doing: string, place: string, error: unknown) {
    super(diskSentence(doing, error));
    this.problem = {
      input: 'out',
      given: `'${place}'`,
      allowed: 'a folder that can be written to',
      mend: diskReason(error),
    };
  }
}

/**
 * One problem as a line of text. Paths and flags appear as they were typed, without anything that
 * could steer a terminal.
 */
export const problemLine = ({ input, given, allowed, mend }: InputProblem): string => {
  const line = `${input}: given ${given}; allowed: ${allowed}${mend === undefined ? '' : `. ${capital(mend)}`}`;
  return line.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu, ' ');
};

/** A failed attempt to write to the file system, as a sentence. */
export const diskSentence = (doing: string, error: unknown): string =>
  `${doing}: ${diskReason(error)}.`;

/** Reason why the file system would not write, without a full stop. */
export const diskReason = (error: unknown): string => REASONS[codeOf(error)] ?? refusedBy(error);

/** Reason why the file system would not read a path, without a full stop. */
export const readingReason = (error: unknown): string =>
  READING_REASONS[codeOf(error)] ?? refusedBy(error);

const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error ? String(error.code) : '';

const refusedBy = (error: unknown): string =>
  `the system refused (${codeOf(error) === '' ? String(error) : codeOf(error)})`;

const READING_REASONS: Readonly<Record<string, string>> = {
  EACCES: 'you have no permission to read it',
  EPERM: 'you are not permitted to read it',
  ENOTDIR: 'something on the way there is a file, not a folder',
  EISDIR: 'it is a folder',
  ELOOP: 'links on the way there go round in a circle',
  ENAMETOOLONG: 'the name is too long for this file system',
  ENOENT: 'it does not exist',
  EMFILE: 'too many files are open',
  EIO: 'the disk cannot read it; copy it from elsewhere',
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
