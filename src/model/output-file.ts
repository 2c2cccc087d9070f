/** A file to be written: a safe name with its extension, and all that it holds. */
export interface OutputFile {
  readonly name: string;
  readonly contents: string | Uint8Array;
}

/** One that holds text. */
export interface TextFile extends OutputFile {
  readonly contents: string;
}
