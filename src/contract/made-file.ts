/**
 * What a file had in it when it was made, kept in the JSON of `make`: what has gone since is told
 * as lost.
 */
export interface MadeFile {
  readonly unit: 'mm' | 'inch';
  /** False for the release that knows no units. */
  readonly statesUnit: boolean;
  /** False for files of what is cut alone. */
  readonly foldLines: boolean;
}
