import type { HemForm } from '../model/bend-rule.ts';
import type { Finding } from '../model/finding.ts';

/** A figure found from measurements, with what it may be off. */
export interface Estimate {
  readonly value: number;
  /** One standard deviation. */
  readonly standardError: number;
  /** The truth lies within this of the value 95 times in 100. */
  readonly within95: number;
}

/** A reading that does not go with the others. */
export interface Outlier {
  readonly strip: number;
  /** The legs against the flat length, the radius, or the angle at which it was stopped. */
  readonly of: 'legs' | 'radius' | 'stop';
  /**
   * What the legs add up to, or the radius was read, less than the others say, mm, or degrees;
   * below 0 for more.
   */
  readonly offMm: number;
}

/** What strips bent to about the same angle lost to the bend. */
export interface DeductionAt {
  readonly angleDeg: number;
  /** Legs less flat length, their mean, mm. */
  readonly deductionMm: number;
  readonly strips: number;
}

/** What the strips of one sheet and one tool say of its bends. */
export interface BendFit {
  readonly kFactor: Estimate;
  readonly insideRadiusMm: Estimate;
  /** Of the errors of K and radius, -1 to 1: they belong together. */
  readonly correlation: number;
  /** Absent when no strip has both angles. */
  readonly springback?: Estimate;
  readonly outliers: readonly Outlier[];
  /**
   * Groups of readings of which one is wrong; nothing says which, and all of them were left out.
   */
  readonly unsure: readonly (readonly Outlier[])[];
  /** How many strips the figures rest on. */
  readonly used: number;
  /** The least and the greatest bend angle among them. */
  readonly anglesDeg: readonly [number, number];
  readonly deductions: readonly DeductionAt[];
  /**
   * What a bend of 90 degrees takes off the sum of its legs, mm, by K and radius together; hems
   * have none.
   */
  readonly squareMm?: Estimate;
  /**
   * How many times what the stated errors of reading explain the strips scatter; `null` where
   * nothing is left to compare.
   */
  readonly misfit: number | null;
  /** Whether that is more than happens once in a hundred times. */
  readonly isMisfit: boolean;
  /**
   * What one bend differs from the next in its deduction beyond errors of reading, one standard
   * deviation, mm.
   */
  readonly spreadMm: number;
  /**
   * About so many more strips, of the same mix of angles, would halve the doubt: errors fall with
   * the root of the number.
   */
  readonly toHalve: number;
}

/**
 * Strips of one sheet, folded with one tool, or its hems of one form, and what they say; without
 * `fit` when they do not say it.
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
  /** What is to be known of them; a `stop` says why there is no fit. */
  readonly findings: readonly Finding[];
}

/** The JSON document of `calibrate FILE --json`. */
export interface CalibrateResult {
  readonly bends: readonly (Calibrated & { readonly stopFor90Deg: number | null })[];
  readonly saved: string | null;
}
