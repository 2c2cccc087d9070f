import type { OfHoles } from './asked.ts';
import type { GeneralClass } from '../data/tolerances/general.ts';

/**
 * How well a part is likely to fit. Every +- is a limit that holds 95 times in 100 for errors
 * spread normally about the expected value, so a limit is 1.96 standard deviations.
 */
export interface FitResult {
  readonly measures: readonly FitMeasure[];
  readonly bolts: readonly BoltFit[];
  /** What the figures rest on, one sentence each, with its source. */
  readonly basis: readonly string[];
}

/** One length, or the angle between two panels. */
export interface FitMeasure extends OfHoles {
  readonly name: string;
  readonly unit: 'mm' | 'deg';
  readonly asked: number;
  /** Average value to expect; it differs from what was asked where a known error is at work. */
  readonly expected: number;
  /**
   * Likely deviation to either side of `expected`: root of the sum of the squares of each cause's
   * effect.
   */
  readonly likely: number;
  /** Deviation with every cause at its limit in the bad direction. */
  readonly worst: number;
  /**
   * Causes, the largest first, with their shares of the sum of squares, which add up to 1. The list
   * is empty where nothing moves the measure.
   */
  readonly causes: readonly CauseShare[];
  readonly tolerance: ToleranceFit | null;
}

export interface CauseShare {
  readonly cause: string;
  readonly share: number;
}

/** The limit of a class of ISO 2768-1, and the chance of keeping to it. */
export interface ToleranceFit {
  readonly grade: GeneralClass;
  readonly plusMinus: number;
  readonly chance: number;
}

/** Holes that are bolted to others all at once. */
export interface BoltFit {
  /** The holes by the inputs that they came from, and as the papers call them: `h1`. */
  readonly holes: readonly string[];
  readonly names: readonly string[];
  /** Bolt of each hole. */
  readonly bolts: readonly string[];
  /** What they are bolted to, where that was stated. */
  readonly meets: string | null;
  /** How far the bolt of the tightest hole can lie off its centre. */
  readonly clearanceMm: number;
  /** Chance that all bolts go in. */
  readonly chance: number;
  /** A change that would make it likely; `null` where it already is. */
  readonly mend: BoltMend | null;
}

/** Larger holes, or slots; when both lists are empty, nothing was found that helps. */
export interface BoltMend {
  readonly chance: number;
  readonly openTo: readonly (NamedHole & { readonly diameterMm: number })[];
  readonly slots: readonly Slot[];
}

/** A hole by the input that it came from, and as the papers call it. */
export interface NamedHole {
  readonly hole: string;
  readonly name: string;
}

export interface Slot extends NamedHole {
  readonly widthMm: number;
  readonly lengthMm: number;
  /**
   * Direction of the slot's length on the blank, degrees counter-clockwise from x, 0 to 180; and in
   * words.
   */
  readonly directionDeg: number;
  readonly runs: string;
}
