import type { MakeOptions } from '../use/make/make-parts.ts';
import type { PrintUnit } from '../text/printed.ts';
import type { PaperSize, SizesBy } from '../model/paper.ts';
import type { OutputId } from '../use/outputs/index.ts';

/** A job as its file describes it, with everything resolved. */
export interface JobFile {
  readonly title: string;
  /** Path of the shop file as written, if one is named. */
  readonly shop: string | undefined;
  /** Folder to write to, within the folder of the job file, if one is named. */
  readonly out: string | undefined;
  readonly papers: readonly OutputId[];
  /** Of what is printed; what is usual for each where none is named. */
  readonly paper: PaperSize | undefined;
  /** How sizes of blanks are written on papers; from the datum when left out. */
  readonly sizes?: SizesBy | undefined;
  /** The day that papers bear, as the user wrote it. */
  readonly date?: string | undefined;
  /** Unit of lengths that are printed. */
  readonly printUnits: PrintUnit;
  /** Parts in the order of the file. */
  readonly parts: readonly JobPart[];
}

/** One entry of `parts`: a family with its inputs. It may give several blanks and both hands. */
export interface JobPart {
  readonly name: string;
  /** Name of its folder: the part's name made safe, and different from that of any other part. */
  readonly folder: string;
  readonly family: string;
  /** All inputs, in the form that the family's reader takes, with measurements put in. */
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly way: Omit<MakeOptions, 'shop'>;
  /** Rules whose warnings and notes are not told. */
  readonly silence: readonly string[];
  readonly note: string | undefined;
  readonly revision: string | undefined;
  /** Pieces that cards are made of, in small letters; all when left out. */
  readonly cardOf?: readonly string[] | undefined;
}
