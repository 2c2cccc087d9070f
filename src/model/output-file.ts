/** A file to be written: a safe name with its extension, and all that it holds. */
export interface OutputFile {
  readonly name: string;
  readonly contents: Contents;
}

export type Contents = string | Uint8Array;

/** One that holds text. */
export interface TextFile extends OutputFile {
  readonly contents: string;
}

/** A file with what it is known by: a part of its contents, near their start. */
export interface MarkedFile extends OutputFile {
  readonly mark: string;
}
