import type { HemForm } from '../model/bend-rule.ts';

/** One folded strip as measured. Lengths in mm; a bend angle is how far the metal was turned. */
export interface MeasuredStrip {
  /** Number of the strip, counted from 1 in the order given. */
  readonly number: number;
  readonly material: string;
  readonly thicknessMm: number;
  readonly machine: string;
  /** The nose, finger or die it was folded with; strips of different tools are never mixed. */
  readonly tool: string;
  /** Radius of the tool's nose, where it is known. */
  readonly noseRadiusMm?: number;
  /**
   * Form of the hem, where the strip was folded right over: legs are then measured to the outermost
   * point of the hem, and leg B is the one that lies on the other.
   */
  readonly hem?: HemForm;
  /** Length of the strip before folding. */
  readonly flatMm: number;
  /**
   * Outside length of a leg, from the free edge to where the outside faces meet; over 90 degrees,
   * to the outermost tangent.
   */
  readonly legAMm: number;
  readonly legBMm: number;
  readonly angleDeg: number;
  /** Position in which the leaf or the ram was stopped, as a bend angle. */
  readonly stopAtDeg?: number;
  /** Inside radius, read with a radius gauge; for a hem, half the gap that it leaves. */
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
 * Usual accuracy: calliper to a tenth, angle finder to half a degree, radius gauges in steps of
 * half a millimetre (common practice).
 */
export const USUAL_READINGS: Readings = {
  lengthMm: 0.1,
  angleDeg: 0.5,
  thicknessMm: 0.02,
  radiusMm: 0.25,
};
