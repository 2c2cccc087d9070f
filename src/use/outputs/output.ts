import type { FindingResult, ReportResult } from '../../contract/part.ts';
import type { Drawing } from '../../model/drawing.ts';
import type { Contents } from '../../model/output-file.ts';
import type { PaperSize } from '../../model/paper.ts';
import type { CutterImport, Shop } from '../../model/shop.ts';
import type { DxfVersion, WholePart } from '../made-part.ts';

/** A kind of file that is made of a part: a line of the list of outputs. */
export type Output = CutOutput | AskedOutput;

interface AnyOutput {
  /** The word that it is asked for by; outputs of one word are asked for together. */
  readonly id: string;
  /** What it is, for help; the same of outputs that a user takes for one. */
  readonly about: string;
  /** What stands behind the part's own name in the file's: `.dxf`, `-card.pdf`. */
  readonly extension: string;
  readonly needs: readonly Need[];
}

/**
 * What an output needs of the part that is not always there, or has to be asked for:
 *
 * - `drawing`: the drawing of the blank, and nothing else;
 * - `plan`: how the part is folded; where nothing is planned, the output is left out;
 * - `fit`: how well the part is likely to fit, which is found out for its sake;
 * - `paper`: the size of the paper that it is printed on;
 * - `findings`: what the other outputs have found out, so that it is written after them.
 */
export type Need = 'drawing' | 'plan' | 'fit' | 'paper' | 'findings';

/** One of the files to cut, which every part has without being asked for. */
export interface CutOutput extends AnyOutput {
  /** Written in one dialect of the cut files, or whatever dialect they have. */
  readonly unasked: DxfVersion | 'always';
  readonly write: (source: DrawingSource) => string;
}

/** An output that is written where it is asked for. */
export interface AskedOutput extends AnyOutput {
  readonly unasked?: undefined;
  readonly write: (source: OutputSource) => Written | Promise<Written>;
}

/** What a cut file is written from. */
export interface DrawingSource {
  readonly drawing: Drawing;
  /** Leaves just what is cut. */
  readonly cutOnly: boolean;
  readonly form: CutterImport;
}

/** What any output may be written from. */
export interface OutputSource extends DrawingSource {
  readonly made: WholePart;
  readonly paper: PaperSize;
  /** Figures and tables of its family, to stand on this part's sheet. */
  readonly report: ReportResult | undefined;
  readonly note: string | undefined;
  readonly revision: string | undefined;
  readonly shop: Shop | undefined;
  /** What the other outputs have found out. */
  readonly findings: readonly FindingResult[];
}

/** Work that several outputs of one part share, done once for all that are written from a source. */
export const shared = <T>(work: (source: OutputSource) => T): ((source: OutputSource) => T) => {
  const done = new WeakMap<OutputSource, { readonly result: T }>();
  return (source) => {
    const known = done.get(source) ?? { result: work(source) };
    done.set(source, known);
    return known.result;
  };
};

/** What became of an output: without contents there is no file. */
export interface Written {
  readonly contents?: Contents;
  /** What is to be known of it, or why there is none. */
  readonly findings?: readonly FindingResult[];
}
