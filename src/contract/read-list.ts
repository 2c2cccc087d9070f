/**
 * How many holes, points or the like were read from an input, so that whatever a terminal has
 * swallowed shows in the count.
 */
export interface ReadList {
  readonly input: string;
  readonly count: number;
  /** Name of the entries, singular or plural to suit the count: `hole`, `fold lines`. */
  readonly what: string;
  /** Whether the text ends where another entry would begin. */
  readonly endsOpen: boolean;
}
