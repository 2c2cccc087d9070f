/** What is kept of a job outside the page, as the server tells it. */
export interface Opened {
  readonly job: string;
  /** `null` where there is no shop file. */
  readonly shop: string | null;
  /** What the job file is called. */
  readonly name: string;
  /** Stands for the text of the job that is kept; a save that was based on another one is refused. */
  readonly stamp: string;
  /** The same of the shop file. */
  readonly shopStamp: string;
}

export type Saved =
  | { readonly how: 'saved'; readonly stamp: string }
  /** Somebody else changed the file meanwhile: this is what it says now. */
  | { readonly how: 'changed'; readonly theirs: string; readonly stamp: string }
  /** Nothing was saved, for this reason. */
  | { readonly how: 'refused'; readonly why: string };

/** What is told of a job that is being made: how many parts are done, then the lines or why there are none. */
export type MakeTold =
  | { readonly done: number; readonly of: number }
  | { readonly lines: readonly string[] }
  | { readonly why: string };
