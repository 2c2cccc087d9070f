import type { FindingResult } from '../contract/part.ts';
import type { InputProblem } from '../forms/problem.ts';
import type { MarkedFile } from '../model/output-file.ts';

/**
 * What a piece of work gives from end to end: what is wrong with what was given, or its result. No
 * use case throws for anything that a user gives, and none knows a file, the clock or the console.
 */
export type UseCase<Result> = Refused | Done<Result>;

/** Nothing was done: everything that is wrong with what was given. */
export interface Refused {
  readonly ok: false;
  readonly problems: readonly InputProblem[];
}

export interface Done<Result> {
  readonly ok: true;
  /** What a program is told: the JSON of the command. */
  readonly result: Result;
  /** All that was found out; a `stop` among it keeps something from being made. */
  readonly findings: readonly FindingResult[];
  /** The files that it comes to, to be saved or shown. */
  readonly files: readonly MarkedFile[];
}
