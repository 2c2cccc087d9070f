import type { MakeOptions } from '../use/make/make-parts.ts';
import type { PaperSize } from '../model/paper.ts';
import type { OutputId } from '../use/outputs/index.ts';

/** A job as its file describes it, everything resolved. */
export interface JobFile {
  readonly title: string;
  /** Path of the shop file as written, if one is named. */
  readonly shop: string | undefined;
  /** Folder to write to, if one is named: within the folder of the job file. */
  readonly out: string | undefined;
  readonly papers: readonly OutputId[];
  readonly paper: PaperSize;
  /** In the order of the file. */
  readonly parts: readonly JobPart[];
}

/**
 * One entry of `parts`: a family with its inputs, of which several blanks and both hands may come.
 */
export interface JobPart {
  readonly name: string;
  /** Its folder: the name made safe, unlike that of any other part. */
  readonly folder: string;
  readonly family: string;
  /** All inputs as the family's reader takes them, measurements put in. */
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly way: Omit<MakeOptions, 'shop'>;
  /** Rules whose warnings and notes are not told. */
  readonly silence: readonly string[];
  readonly note: string | undefined;
  readonly revision: string | undefined;
}
