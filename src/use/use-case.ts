import type { FindingResult } from '../contract/part.ts';
import type { InputProblem } from '../forms/problem.ts';
import type { MarkedFile } from '../model/output-file.ts';

/**
 * The result of a piece of work from end to end: the problems of what was given, or the result. No
 * use case throws for anything that a user gives, and none knows a file, the clock or the console.
 */
export type UseCase<Result> = Refused | Done<Result>;

/** Nothing was done: the problems say everything that is wrong with what was given. */
export interface Refused {
  readonly ok: false;
  readonly problems: readonly InputProblem[];
}

export interface Done<Result> {
  readonly ok: true;
  /** The result for programs: the JSON of the command. */
  readonly result: Result;
  /** All findings; a `stop` among them keeps something from being made. */
  readonly findings: readonly FindingResult[];
  /** The files of the result, to be saved or shown. */
  readonly files: readonly MarkedFile[];
}
