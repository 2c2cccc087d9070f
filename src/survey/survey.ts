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
  /** Sides on which points lie, where distances alone leave that open. */
  readonly sides?: readonly SideStatement[];
  /** Error of one reading of the tape, mm (one standard deviation); `TAPE_MM` when left out. */
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

/** The distance whose removal improves the fit most. */
export interface Suspect {
  readonly from: string;
  readonly to: string;
  readonly measuredMm: number;
  /** Length that all the other distances give it. */
  readonly wouldBeMm: number;
  readonly rmsWithoutMm: number;
  /** Others whose removal improves the fit as much: the set then cannot tell which one is wrong. */
  readonly rivals: readonly { readonly from: string; readonly to: string }[];
}

/** A point that the set does not fix: nothing ties it to the figure, or it swings. */
export interface LoosePoint {
  readonly name: string;
  readonly why: 'apart' | 'swings';
}

/**
 * A point that moves by about `mmPerMm` (1000 at most) when every distance may be 1 mm off, because
 * its distances meet at a flat angle.
 */
export interface WeakPoint {
  readonly name: string;
  readonly mmPerMm: number;
}

/** Points that may as well lie on the other side of a line. */
export interface Mirror {
  /** The points that flip; all points when `whole`. */
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

/** A distance that is longer than a way round through other points. */
export interface Contradiction {
  readonly from: string;
  readonly to: string;
  readonly measuredMm: number;
  /** The way, both ends included, and its length. */
  readonly way: readonly string[];
  readonly wayMm: number;
}

/**
 * What a set of distances tells. In its frame the first point that is fixed lies at (0, 0), the
 * second on +x, and the next one off that line at y > 0 unless a statement says otherwise.
 */
export interface Survey {
  /** The points that are fixed, in the order in which they are named. */
  readonly points: readonly PlacedPoint[];
  /** Residuals of the distances, in the order given. */
  readonly residuals: readonly Residual[];
  /** Root mean square of the residuals between fixed points. */
  readonly rmsMm: number;
  /** Number of distances beyond those that the fixed figure needs. */
  readonly redundancy: number;
  readonly suspect: Suspect | null;
  readonly loose: readonly LoosePoint[];
  /** The least number of further distances that fix all points. */
  readonly missing: number;
  readonly weak: readonly WeakPoint[];
  readonly mirrors: readonly Mirror[];
  readonly contradictions: readonly Contradiction[];
  /**
   * Statements that the figure does not keep, because the distances, or other statements, say the
   * opposite.
   */
  readonly unkept: readonly SideStatement[];
  /** Whether another figure fits as well that no flip explains. */
  readonly otherFigure: boolean;
}
