/**
 * What a file held when it was made, kept in the JSON of `make`: whatever is missing later is
 * reported as lost.
 */
export interface MadeFile {
  readonly unit: 'mm' | 'inch';
  /** Whether the file states its unit; the release that knows no units does not. */
  readonly statesUnit: boolean;
  /** Whether the file has fold lines; files of what is cut alone have none. */
  readonly foldLines: boolean;
}
