import type { FitResult } from './fit.ts';
import type { Severity } from '../model/finding.ts';
import type { ReadList } from './read-list.ts';
import type { Amount, Limit } from '../model/measured.ts';
import type { Mend } from '../model/mend.ts';
import type { Direction, Measure } from '../model/part.ts';
import type { Report } from './report.ts';
import type { BendSheetResult, CopeResult, TubeResult } from './tube.ts';
import type { ProofResult } from './proof.ts';
import type { FoldPlan } from './fold-plan.ts';

/**
 * The JSON document of `make --json`. Its names are a contract: they are added to, never changed.
 * Coordinates are those of the DXF: mm, y up, lower left corner of the blank's extents at the
 * origin.
 */
export interface MakeResult {
  readonly parts: readonly (PartResult & { readonly files: readonly string[] })[];
  /** Reports of the families that tell more than their parts. */
  readonly reports: readonly ReportResult[];
  /**
   * Number of entries that were read from each input that holds several holes, points or the like.
   */
  readonly lists: readonly ReadList[];
}

/** Figures and tables about what was made, with its name. */
export interface ReportResult extends Required<Report> {
  readonly name: string;
}

/**
 * One part. `blank` and `folded` are `null` when a `stop` finding kept the part from getting that
 * far, and of a tube, which has neither.
 */
export interface PartResult {
  readonly name: string;
  readonly family: string;
  /** Which of a family's several blanks this is; `null` where there is only one. */
  readonly piece: string | null;
  readonly hand: Hand;
  /** How many of this blank are needed in this hand. */
  readonly quantity: number;
  readonly material: MaterialResult;
  /**
   * Canonical text of the bend rule that was asked for: `din6935`, `k:0.42`; `bends` state the rule
   * that each one used.
   */
  readonly rule: string;
  readonly blank: BlankResult | null;
  readonly bends: readonly BendResult[];
  readonly folded: { readonly sizeMm: readonly [x: number, y: number, z: number] } | null;
  /** How it is folded; `null` where there is nothing to fold, or it is folded by a service. */
  readonly foldPlan: FoldPlan | null;
  /** What the written DXF was found to fold to; `null` where no file was written. */
  readonly proof: ProofResult | null;
  /** How well it is likely to fit; `null` when that was not asked for, or the part was stopped. */
  readonly fit: FitResult | null;
  readonly findings: readonly FindingResult[];
  /** What a tube is cut and bent by; absent of a part of sheet. */
  readonly tube?: TubeResult;
  readonly bendSheet?: BendSheetResult;
  /** How the ends of a coped tube are cut: the first one, and the other where that is coped too. */
  readonly cope?: CopeResult;
  readonly otherCope?: CopeResult;
}

export type Hand = 'left' | 'right';

export interface MaterialResult {
  readonly id: string;
  readonly thicknessMm: number;
  readonly densityKgM3: number;
}

export interface BlankResult {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Area of the metal: inside the outline, less the holes. */
  readonly areaMm2: number;
  /** Length of the outline and of all holes. */
  readonly cutLengthMm: number;
  /** One for the outline and one for each hole. */
  readonly pierces: number;
  /** Mass from the area of the metal, the thickness and the density. */
  readonly massKg: number;
  /** What the sizes on the papers are measured from: two lines at right angles. */
  readonly datum: { readonly x: DatumResult; readonly y: DatumResult };
  /** Its holes, by their names on all papers; the slots along folds are not among them. */
  readonly holes: readonly HoleResult[];
}

/** A line from which places on the blank are measured, in the coordinates of the DXF. */
export interface DatumResult {
  /** `edge` of the metal, `square` to the other line at an end of it, `hole`, `rim` of a round blank. */
  readonly kind: 'edge' | 'square' | 'hole' | 'rim';
  readonly name: string;
  /** A point on it, and the unit vector in which what is measured from it grows. */
  readonly at: readonly [number, number];
  readonly towards: readonly [number, number];
}

export interface HoleResult {
  /** `h1`. */
  readonly name: string;
  /** `round`, `slot`, `rectangle`, `hexagon`, `cut-out`. */
  readonly kind: string;
  /** As it is written on the papers: `Ø9`, `8 x 20`. */
  readonly size: string;
  readonly panel: string;
  readonly inputs: readonly string[];
  /** Its middle in the coordinates of the DXF, and from the datum, mm. */
  readonly at: readonly [number, number];
  readonly fromDatum: readonly [number, number];
}

export interface BendResult {
  readonly id: string;
  /** How far the metal is turned: 0 flat, 90 square, 180 a closed hem. */
  readonly angleDeg: number;
  /** `up` is folded toward whoever looks at the drawing. */
  readonly direction: Direction;
  readonly insideRadiusMm: number;
  readonly kFactor: number;
  readonly allowanceMm: number;
  readonly setbackMm: number;
  readonly deductionMm: number;
  /** The dimensions that setback and deduction refer to: they are smaller for inside dimensions. */
  readonly measure: Measure;
  /**
   * The rule that this bend used, which is not always the part's: `k:0.5` for a roll, `hem-closed`.
   */
  readonly rule: string;
  readonly centreLine: readonly [readonly [number, number], readonly [number, number]];
}

export interface FindingResult {
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  /** Name of the panel that it is about, where it is about one. */
  readonly panel?: string;
  /** Its place on the blank, in the coordinates of the DXF, where it has one place. */
  readonly at?: readonly [x: number, y: number];
  /** What was measured, and the limit that it should keep. */
  readonly measured?: Amount;
  readonly limit?: Limit;
  /** Names of the inputs that a finding is about, as in a file. */
  readonly inputs?: readonly string[];
  /** Changes of one input while the others stay, each of which removes the finding. */
  readonly mends?: readonly Mend[];
}
