import type { GeneralClass } from '../data/tolerances/general.ts';

/**
 * How well a part is likely to fit. Every +- is a limit that holds 95 times in 100, of errors
 * spread normally about what is expected; so a limit is 1.96 standard deviations.
 */
export interface FitResult {
  readonly measures: readonly FitMeasure[];
  readonly bolts: readonly BoltFit[];
  /** What the figures rest on, a sentence each, with its source. */
  readonly basis: readonly string[];
}

/** One length, or the angle between two panels. */
export interface FitMeasure {
  readonly name: string;
  readonly unit: 'mm' | 'deg';
  readonly asked: number;
  /** What it comes to on average: other than asked where something is known to be off. */
  readonly expected: number;
  /**
   * Likely to either side of `expected`: root of the sum of the squares of what each cause does.
   */
  readonly likely: number;
  /** With every cause at its limit in the bad direction. */
  readonly worst: number;
  /**
   * The largest first; the shares of the squares, which add up to 1. Empty where nothing moves the
   * measure.
   */
  readonly causes: readonly CauseShare[];
  readonly tolerance: ToleranceFit | null;
}

export interface CauseShare {
  readonly cause: string;
  readonly share: number;
}

/** What a class of ISO 2768-1 allows, and the chance to keep to it. */
export interface ToleranceFit {
  readonly grade: GeneralClass;
  readonly plusMinus: number;
  readonly chance: number;
}

/** Holes that are bolted to others all at once. */
export interface BoltFit {
  readonly holes: readonly string[];
  /** Of each hole. */
  readonly bolts: readonly string[];
  /** What they are bolted to, where that was said. */
  readonly meets: string | null;
  /** How far the bolt of the tightest hole can be off its middle. */
  readonly clearanceMm: number;
  /** That all bolts go in. */
  readonly chance: number;
  /** What would make it likely; `null` where it is. */
  readonly mend: BoltMend | null;
}

/** Larger holes, or slots; with neither list filled nothing was found. */
export interface BoltMend {
  readonly chance: number;
  readonly openTo: readonly { readonly hole: string; readonly diameterMm: number }[];
  readonly slots: readonly Slot[];
}

export interface Slot {
  readonly hole: string;
  readonly widthMm: number;
  readonly lengthMm: number;
  /**
   * Which way its length runs: on the blank, degrees counter-clockwise from x, 0 to 180; and in
   * words.
   */
  readonly directionDeg: number;
  readonly runs: string;
}
