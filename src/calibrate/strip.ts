import type { HemForm } from '../model/bend-rule.ts';

/**
 * One folded strip, as it was measured. Lengths in mm; a bend angle is what the metal was turned.
 */
export interface MeasuredStrip {
  /** Counted from 1 in the order given. */
  readonly number: number;
  readonly material: string;
  readonly thicknessMm: number;
  readonly machine: string;
  /** The nose, finger or die it was folded with; strips of different tools are never mixed. */
  readonly tool: string;
  /** Of the tool's nose, where it is known. */
  readonly noseRadiusMm?: number;
  /**
   * Folded right over: legs are measured to the outermost point of the hem, leg B is the one that
   * lies on the other.
   */
  readonly hem?: HemForm;
  /** Before folding. */
  readonly flatMm: number;
  /**
   * Outside, from the free edge to where the outside faces meet; over 90 degrees to the outermost
   * tangent.
   */
  readonly legAMm: number;
  readonly legBMm: number;
  readonly angleDeg: number;
  /** Where the leaf or the ram was stopped, as a bend angle. */
  readonly stopAtDeg?: number;
  /** Read with a radius gauge; of a hem, half the gap it leaves. */
  readonly insideRadiusMm?: number;
}

/** Standard deviations of one reading. */
export interface Readings {
  readonly lengthMm: number;
  readonly angleDeg: number;
  readonly thicknessMm: number;
  readonly radiusMm: number;
}

/**
 * Calliper to a tenth, angle finder to half a degree, radius gauges in steps of half a millimetre
 * (common practice).
 */
export const USUAL_READINGS: Readings = {
  lengthMm: 0.1,
  angleDeg: 0.5,
  thicknessMm: 0.02,
  radiusMm: 0.25,
};
