/** One input that cannot be used. All texts are single lines without an ending full stop. */
export interface InputProblem {
  /**
   * The input's name as in a file, `legA`; `input` itself when it is not a set of inputs at all.
   */
  readonly input: string;
  /** What was given, shortened where it is long; `nothing` when it is missing. */
  readonly given: string;
  readonly allowed: string;
  /** What to write instead, or what is wrong with it, where that is evident. */
  readonly mend?: string;
}
