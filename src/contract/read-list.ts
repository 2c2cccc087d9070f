/**
 * How many holes, points or the like were read of an input: what a terminal has swallowed is
 * missing in the count.
 */
export interface ReadList {
  readonly input: string;
  readonly count: number;
  /** `hole`, `fold lines`: in the number of the count. */
  readonly what: string;
  /** The text stops where another would begin. */
  readonly endsOpen: boolean;
}
