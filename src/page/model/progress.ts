/** How far long work is, as it is told while it goes on. */
export interface Progress {
  /** What is being done, to follow `Making ...:`; in small letters. */
  readonly doing: string;
  /** So many of so many are done; both left out where nothing is counted. */
  readonly done?: number;
  readonly of?: number;
}

export type TellProgress = (progress: Progress) => void;

/** `order of folds, 3 of 5 done`. */
export const progressWords = ({ doing, done, of }: Progress): string =>
  done === undefined || of === undefined ? doing : `${doing}, ${done} of ${of} done`;
