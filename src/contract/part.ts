import type { FitResult } from './fit.ts';
import type { Severity } from '../model/finding.ts';
import type { ReadList } from './read-list.ts';
import type { Amount, Limit } from '../model/measured.ts';
import type { Mend } from '../model/mend.ts';
import type { Direction, Measure } from '../model/part.ts';
import type { Report } from './report.ts';
import type { ProofResult } from './proof.ts';
import type { FoldPlan } from './fold-plan.ts';

/**
 * The JSON document of `make --json`. Its names are a contract: they are added to, never changed.
 * Coordinates are those of the DXF: mm, y up, lower left corner of the blank's extents at the
 * origin.
 */
export interface MakeResult {
  readonly parts: readonly (PartResult & { readonly files: readonly string[] })[];
  /** Of the families that have something to tell beside their parts. */
  readonly reports: readonly ReportResult[];
  /** Of the inputs that hold several holes, points or the like: how many were read. */
  readonly lists: readonly ReadList[];
}

/** Figures and tables of what was made, by its name. */
export interface ReportResult extends Required<Report> {
  readonly name: string;
}

/**
 * One part. `blank` and `folded` are `null` when a `stop` finding kept the part from getting that
 * far.
 */
export interface PartResult {
  readonly name: string;
  readonly family: string;
  /** Which of a family's several blanks this is; `null` where there is one only. */
  readonly piece: string | null;
  readonly hand: Hand;
  /** How many of this blank in this hand. */
  readonly quantity: number;
  readonly material: MaterialResult;
  /**
   * Canonical text of the bend rule that was asked for: `din6935`, `k:0.42`; `bends` say which each
   * went by.
   */
  readonly rule: string;
  readonly blank: BlankResult | null;
  readonly bends: readonly BendResult[];
  readonly folded: { readonly sizeMm: readonly [x: number, y: number, z: number] } | null;
  /** How it is folded; `null` where there is nothing to fold, or it is folded by a service. */
  readonly foldPlan: FoldPlan | null;
  /** What the written DXF was found to fold to; `null` where no file was written. */
  readonly proof: ProofResult | null;
  /** How well it is likely to fit; `null` when that was not asked, or the part was stopped. */
  readonly fit: FitResult | null;
  readonly findings: readonly FindingResult[];
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
  /** Once round the outline and once round every hole. */
  readonly cutLengthMm: number;
  /** One for the outline and one for each hole. */
  readonly pierces: number;
  /** From the area of the metal, the thickness and the density. */
  readonly massKg: number;
}

export interface BendResult {
  readonly id: string;
  /** How far the metal is turned: 0 flat, 90 square, 180 a closed hem. */
  readonly angleDeg: number;
  /** `up`: folded toward whoever looks at the drawing. */
  readonly direction: Direction;
  readonly insideRadiusMm: number;
  readonly kFactor: number;
  readonly allowanceMm: number;
  readonly setbackMm: number;
  readonly deductionMm: number;
  /** The dimensions that setback and deduction are of: of inside ones they are smaller. */
  readonly measure: Measure;
  /**
   * The rule that this bend went by, which is not the part's for all: `k:0.5` of a roll,
   * `hem-closed`.
   */
  readonly rule: string;
  readonly centreLine: readonly [readonly [number, number], readonly [number, number]];
}

export interface FindingResult {
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  /** The panel that it is about, by its name, where it is one. */
  readonly panel?: string;
  /** Where on the blank, in the coordinates of the DXF, where it has one place. */
  readonly at?: readonly [x: number, y: number];
  /** What was measured, and what it is to be. */
  readonly measured?: Amount;
  readonly limit?: Limit;
  /** Of a finding about inputs: their names as in a file. */
  readonly inputs?: readonly string[];
  /** Changes of one input, each of which does away with it, the others as they are. */
  readonly mends?: readonly Mend[];
}
