import type { HemForm } from '../model/bend-rule.ts';
import type { Finding } from '../model/finding.ts';

/** A figure found from measurements, with its uncertainty. */
export interface Estimate {
  readonly value: number;
  /** One standard deviation. */
  readonly standardError: number;
  /** The truth lies within this distance of the value 95 times in 100. */
  readonly within95: number;
}

/** A reading that does not agree with the others. */
export interface Outlier {
  readonly strip: number;
  /**
   * Which reading it is: the legs against the flat length, the radius, or the angle at which the
   * bend was stopped.
   */
  readonly of: 'legs' | 'radius' | 'stop';
  /**
   * How much less than the other readings suggest the legs add up to, or the radius or angle was
   * read, mm or degrees; below 0 for more.
   */
  readonly offMm: number;
}

/** Deduction of strips bent to about the same angle. */
export interface DeductionAt {
  readonly angleDeg: number;
  /** Legs less flat length, averaged over the strips, mm. */
  readonly deductionMm: number;
  readonly strips: number;
}

/** What the strips of one sheet and one tool tell about its bends. */
export interface BendFit {
  readonly kFactor: Estimate;
  readonly insideRadiusMm: Estimate;
  /** Correlation of the errors of K and radius, -1 to 1: the two belong together. */
  readonly correlation: number;
  /** Absent when no strip has both angles. */
  readonly springback?: Estimate;
  readonly outliers: readonly Outlier[];
  /**
   * Groups of readings of which one is wrong. Nothing tells which, so all of them were left out.
   */
  readonly unsure: readonly (readonly Outlier[])[];
  /** Number of strips that the figures rest on. */
  readonly used: number;
  /** Smallest and greatest bend angle among them. */
  readonly anglesDeg: readonly [number, number];
  readonly deductions: readonly DeductionAt[];
  /**
   * How much shorter a bend of 90 degrees makes the blank than the sum of its legs, mm, from K and
   * radius together; hems have none.
   */
  readonly squareMm?: Estimate;
  /**
   * Scatter of the strips as a multiple of what the stated errors of reading explain; `null` where
   * nothing is left to compare.
   */
  readonly misfit: number | null;
  /** Whether chance would make the misfit this large less than once in a hundred times. */
  readonly isMisfit: boolean;
  /**
   * Scatter of the deduction from one bend to the next beyond the errors of reading, one standard
   * deviation, mm.
   */
  readonly spreadMm: number;
  /**
   * About how many more strips, of the same mix of angles, would halve the uncertainty: errors fall
   * with the root of the number.
   */
  readonly toHalve: number;
}

/**
 * Strips of one sheet, folded with one tool, or its hems of one form, and what they tell; without
 * `fit` when they are not enough for one.
 */
export interface Calibrated {
  readonly material: string;
  readonly thicknessMm: number;
  readonly machine: string;
  readonly tool: string;
  readonly noseRadiusMm?: number;
  readonly hem?: HemForm;
  readonly strips: number;
  readonly fit?: BendFit;
  /** Findings about them; a `stop` says why there is no fit. */
  readonly findings: readonly Finding[];
}

/** The JSON document of `calibrate FILE --json`. */
export interface CalibrateResult {
  readonly bends: readonly (Calibrated & { readonly stopFor90Deg: number | null })[];
  readonly saved: string | null;
}
