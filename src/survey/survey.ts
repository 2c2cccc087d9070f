/** A tape distance between two named points, mm. */
export interface Distance {
  readonly from: string;
  readonly to: string;
  readonly mm: number;
}

export type Side = 'left' | 'right';

/**
 * `point` lies to the left or right of whoever walks from `from` to `to`, seen with x to the right
 * and y up.
 */
export interface SideStatement {
  readonly from: string;
  readonly to: string;
  readonly point: string;
  readonly side: Side;
}

export interface SurveyOptions {
  /** Which side a point lies on, where distances alone leave that open. */
  readonly sides?: readonly SideStatement[];
  /**
   * What one reading of the tape may be off, mm (one standard deviation); `TAPE_MM` when left out.
   */
  readonly toleranceMm?: number;
}

/**
 * Repeat readings of a hand-held tape between marks agree to about this, mm. Common practice, from
 * memory.
 */
export const TAPE_MM = 1;

/**
 * A reading is blamed beyond this many standard deviations: the two-sided limit of the normal
 * distribution at 0.1 %, as is usual in Baarda's "data snooping" (W. Baarda, A testing procedure
 * for use in geodetic networks, 1968; cited from memory).
 */
export const LIMIT = 3.29;

export interface PlacedPoint {
  readonly name: string;
  readonly x: number;
  readonly y: number;
}

/** `residualMm` = found - measured. */
export interface Residual {
  readonly from: string;
  readonly to: string;
  readonly measuredMm: number;
  readonly foundMm: number;
  readonly residualMm: number;
}

/** The distance whose removal mends the fit most. */
export interface Suspect {
  readonly from: string;
  readonly to: string;
  readonly measuredMm: number;
  /** What all the other distances make of it. */
  readonly wouldBeMm: number;
  readonly rmsWithoutMm: number;
  /** Others whose removal mends the fit as well: then the set cannot tell which one is wrong. */
  readonly rivals: readonly { readonly from: string; readonly to: string }[];
}

/** A point that the set does not pin down: nothing ties it to the figure, or it swings. */
export interface LoosePoint {
  readonly name: string;
  readonly why: 'apart' | 'swings';
}

/**
 * A point that moves `mmPerMm` or so (1000 at most) when every distance may be 1 mm off, because
 * its distances meet at a flat angle.
 */
export interface WeakPoint {
  readonly name: string;
  readonly mmPerMm: number;
}

/** Points that may as well lie on the other side of a line. */
export interface Mirror {
  /** What flips; all points when `whole`. */
  readonly points: readonly string[];
  readonly from: string;
  readonly to: string;
  /**
   * The side on which the first of `points` (the third of the figure when `whole`) was taken to
   * lie.
   */
  readonly side: Side;
  readonly why: 'stated' | 'fit' | 'default';
  readonly whole: boolean;
  /** The statement that gives the other figure: `A-B-C: right`. */
  readonly otherwise: string;
}

/** A distance longer than a way round through other points. */
export interface Contradiction {
  readonly from: string;
  readonly to: string;
  readonly measuredMm: number;
  /** The way, both ends included, and its length. */
  readonly way: readonly string[];
  readonly wayMm: number;
}

/**
 * What a set of distances says. Frame: the first point that is pinned down at (0, 0), the second on
 * +x, the next one off that line at y > 0 unless a statement says otherwise.
 */
export interface Survey {
  /** The points that are pinned down, in the order in which they are named. */
  readonly points: readonly PlacedPoint[];
  /** One for each distance, in the order given. */
  readonly residuals: readonly Residual[];
  /** Root mean square of the residuals between pinned points. */
  readonly rmsMm: number;
  /** How many distances more than the pinned figure needs. */
  readonly redundancy: number;
  readonly suspect: Suspect | null;
  readonly loose: readonly LoosePoint[];
  /** How many more distances it takes, at least, to pin down all points. */
  readonly missing: number;
  readonly weak: readonly WeakPoint[];
  readonly mirrors: readonly Mirror[];
  readonly contradictions: readonly Contradiction[];
  /**
   * Statements that the figure does not keep: the distances, or other statements, say the opposite.
   */
  readonly unkept: readonly SideStatement[];
  /** Whether a figure that no flip explains fits as well. */
  readonly otherFigure: boolean;
}
