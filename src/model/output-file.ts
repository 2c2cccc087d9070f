/** A file to be written: a safe name with its extension, and its contents. */
export interface OutputFile {
  readonly name: string;
  readonly contents: Contents;
}

export type Contents = string | Uint8Array;

/** A file that holds text. */
export interface TextFile extends OutputFile {
  readonly contents: string;
}

/** A file with its mark: a piece of its contents near the start, by which it is recognised. */
export interface MarkedFile extends OutputFile {
  readonly mark: string;
}
