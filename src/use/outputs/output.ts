import type { FindingResult, ReportResult } from '../../contract/part.ts';
import type { Drawing } from '../../model/drawing.ts';
import type { Contents } from '../../model/output-file.ts';
import type { PrintUnit } from '../../text/printed.ts';
import type { PaperMark } from '../../model/paper-mark.ts';
import type { PaperSize, SizesBy } from '../../model/paper.ts';
import type { CutterImport, Shop } from '../../model/shop.ts';
import type { MadeSet } from '../assembly/assembled.ts';
import type { DxfVersion, WholePart } from '../made-part.ts';

/** A kind of file that is made of a part: a line of the list of outputs. */
export type Output = CutOutput | AskedOutput;

interface AnyOutput {
  /** The word by which it is asked for; outputs of one word are asked for together. */
  readonly id: string;
  /** What it is, for the help; outputs that a user takes for one have the same text. */
  readonly about: string;
  /** Ending of the file's name behind the part's own name: `.dxf`, `-card.pdf`. */
  readonly extension: string;
  readonly needs: readonly Need[];
}

/**
 * What an output needs of the part that is not always there, or has to be asked for:
 *
 * - `drawing`: the drawing of the blank, and nothing else;
 * - `plan`: how the part is folded; where nothing is planned, the output is left out;
 * - `fit`: how well the part is likely to fit, which is worked out for this output;
 * - `paper`: the size of the paper that it is printed on;
 * - `assembly`: the set of pieces that it belongs to, where they say how they are joined; the output is
 *   written once for all of them, under the name of the set;
 * - `findings`: the findings on the other outputs, so that it is written after them.
 */
export type Need = 'drawing' | 'plan' | 'fit' | 'paper' | 'assembly' | 'findings';

/** One of the cut files, which every part has without being asked for. */
export interface CutOutput extends AnyOutput {
  /**
   * The dialect of the cut files in which it is written, or `always` where it does not depend on
   * the dialect.
   */
  readonly unasked: DxfVersion | 'always';
  readonly write: (source: DrawingSource) => string;
}

/** An output that is written where it is asked for. */
export interface AskedOutput extends AnyOutput {
  readonly unasked?: undefined;
  readonly write: (source: OutputSource) => Written | Promise<Written>;
}

/** The source of a cut file. */
export interface DrawingSource {
  readonly drawing: Drawing;
  /** Whether only the cut lines are written. */
  readonly cutOnly: boolean;
  readonly form: CutterImport;
}

/** The source of any output. */
export interface OutputSource extends DrawingSource {
  readonly made: WholePart;
  readonly paper: PaperSize;
  /** How sizes of the blank are written. */
  readonly sizes: SizesBy;
  /** Figures and tables of its family for this part's sheet. */
  readonly report: ReportResult | undefined;
  readonly note: string | undefined;
  readonly revision: string | undefined;
  /** The day that its papers bear, in the user's words. */
  readonly date: string | undefined;
  /** What papers, part and cut file find each other by. */
  readonly paperMark: PaperMark;
  readonly shop: Shop | undefined;
  /** The set that it is a piece of, where papers of that are asked for. */
  readonly set: MadeSet | undefined;
  /** Unit of lengths that are printed. */
  readonly printUnits: PrintUnit;
  /** Where the front page of its job lies from its folder. */
  readonly home: string | undefined;
  /** Whether there is another hand from which this one has to be told. */
  readonly isHanded: boolean;
  /** Findings on the other outputs. */
  readonly findings: readonly FindingResult[];
}

/**
 * Work that several outputs of one part share; it is done once for all that are written from a
 * source.
 */
export const shared = <T>(work: (source: OutputSource) => T): ((source: OutputSource) => T) => {
  const done = new WeakMap<OutputSource, { readonly result: T }>();
  return (source) => {
    const known = done.get(source) ?? { result: work(source) };
    done.set(source, known);
    return known.result;
  };
};

/** The result of an output: without contents there is no file. */
export interface Written {
  readonly contents?: Contents;
  /** Findings on the file, or the reason why there is none. */
  readonly findings?: readonly FindingResult[];
}
