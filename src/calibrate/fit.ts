import { setbackMm } from '../bending/setback.ts';
import { leastSquares, type LeastSquares, type Observation } from '../statistics/least-squares.ts';
import { NORMAL95, student95 } from '../statistics/student.ts';
import { type MeasuredStrip, type Readings, USUAL_READINGS } from './strip.ts';

/** A figure found from measurements, with what it may be off. */
export interface Estimate {
  readonly value: number;
  /** One standard deviation. */
  readonly standardError: number;
  /** The truth lies within this of the value 95 times in 100. */
  readonly within95: number;
}

/** A strip that does not go with the others. */
export interface Outlier {
  readonly strip: number;
  /** What its legs add up to less than the others say they should, mm; below 0 for more. */
  readonly offMm: number;
}

/** What the strips of one sheet and one tool say of its bends. */
export interface BendFit {
  readonly kFactor: Estimate;
  readonly insideRadiusMm: Estimate;
  /** Bend angle that stayed over the angle at the stop; absent when no strip has both. */
  readonly springback?: Estimate;
  readonly outliers: readonly Outlier[];
  /** How many strips the figures rest on. */
  readonly used: number;
  /** The least and the greatest bend angle among them. */
  readonly anglesDeg: readonly [number, number];
  /** About so many more strips, of the same mix of angles, would halve the doubt: errors fall with the root of the number. */
  readonly toHalve: number;
}

/** Several standard deviations: what is further off than one reading in a thousand is an outlier. */
const OUTLIER = 3.29;

/** An unknown of the fit: nothing else tells K from the radius when all strips are bent alike. */
const UNKNOWNS = 2;

/** Doubt about K past which the strips do not pin it down. */
const LARGEST_K_ERROR = 0.15;

/**
 * K and inside radius from strips of one sheet, folded with one tool. Each gives one equation: its legs less its flat
 * length are the deduction 2 (r + t) tan(A/2) - A (r + K t), which is linear in r and K. Strips bent to different
 * angles tell the two apart, or readings of the radius. `undefined` when the strips do not pin both down.
 */
export function fitBends(strips: readonly MeasuredStrip[], readings: Readings = USUAL_READINGS): BendFit | undefined {
  let kept = strips;
  const outliers: Outlier[] = [];
  let fit = solve(kept, readings);
  for (let worst = worstOf(fit, kept, readings); worst !== undefined && kept.length > UNKNOWNS + 1; worst = worstOf(fit, kept, readings)) {
    const { strip } = worst;
    outliers.push(worst);
    kept = kept.filter(({ number }) => number !== strip);
    fit = solve(kept, readings);
  }
  if (fit === undefined) return undefined;
  const freedom = observationsOf(kept, readings).length - UNKNOWNS;
  const [kFactor, insideRadiusMm] = [estimate(fit, 1, freedom), estimate(fit, 0, freedom)];
  if (kFactor.standardError > LARGEST_K_ERROR) return undefined;
  const springback = springbackOf(kept);
  const angles = kept.map((s) => s.angleDeg);
  return {
    kFactor,
    insideRadiusMm,
    ...(springback !== undefined && { springback }),
    outliers,
    used: kept.length,
    anglesDeg: [Math.min(...angles), Math.max(...angles)],
    toHalve: 3 * kept.length,
  };
}

const solve = (strips: readonly MeasuredStrip[], readings: Readings): LeastSquares | undefined => leastSquares(observationsOf(strips, readings), UNKNOWNS);

/** The unknowns are r and K. Readings of the radius come after the strips, in their order. */
const observationsOf = (strips: readonly MeasuredStrip[], readings: Readings): Observation[] => [
  ...strips.map((strip) => deductionOf(strip, readings)),
  ...strips.flatMap(({ insideRadiusMm }): Observation[] =>
    insideRadiusMm === undefined ? [] : [{ row: [1, 0], right: insideRadiusMm, sigma: readings.radiusMm }],
  ),
];

/** K as handbooks have it, for weighing errors of angle and thickness; what it is exactly hardly matters there. */
const USUAL_K = 0.42;

const deductionOf = ({ angleDeg, thicknessMm: t, legAMm, legBMm, flatMm }: MeasuredStrip, readings: Readings): Observation => {
  const rad = (angleDeg * Math.PI) / 180;
  // Both setbacks are this for every millimetre of r + t.
  const both = 2 * setbackMm(angleDeg, 0, 1, 'outside');
  const slope = angleDeg < 90 ? 1 / Math.cos(rad / 2) ** 2 : 0;
  // d/dA of the deduction with r about t.
  const byAngle = (t * (2 * slope - 1 - USUAL_K) * readings.angleDeg * Math.PI) / 180;
  const byThickness = (both - USUAL_K * rad) * readings.thicknessMm;
  return {
    row: [both - rad, -rad * t],
    right: legAMm + legBMm - flatMm - both * t,
    sigma: Math.hypot(Math.sqrt(3) * readings.lengthMm, byAngle, byThickness),
  };
};

/** The strip furthest off, over what scatter there is, if it is too far. */
const worstOf = (fit: LeastSquares | undefined, strips: readonly MeasuredStrip[], readings: Readings): Outlier | undefined => {
  if (fit === undefined) return undefined;
  const observations = observationsOf(strips, readings);
  const off = strips.map((_, i) => {
    const checked = fit.redundancy[i] as number;
    return checked < 1e-6 ? 0 : Math.abs(fit.residuals[i] as number) / ((observations[i] as Observation).sigma * Math.sqrt(checked));
  });
  // Half of the readings lie within 0.6745 standard deviations: a scatter that one wild strip does not widen.
  const scatter = Math.max(1, off.toSorted((a, b) => a - b)[Math.floor(off.length / 2)] as number / 0.6745);
  const worst = off.indexOf(Math.max(...off));
  if ((off[worst] as number) <= OUTLIER * scatter) return undefined;
  return { strip: (strips[worst] as MeasuredStrip).number, offMm: -(fit.residuals[worst] as number) };
};

/** Below this many degrees of freedom the scatter of the strips says less than the stated readings do. */
const ENOUGH = 3;

const estimate = ({ x, covariance, misfit }: LeastSquares, i: number, freedom: number): Estimate => {
  const stated = Math.sqrt((covariance[i] as number[])[i] as number);
  const standardError = freedom >= ENOUGH ? stated * misfit : stated;
  return { value: x[i] as number, standardError, within95: standardError * (freedom >= ENOUGH ? student95(freedom) : NORMAL95) };
};

const springbackOf = (strips: readonly MeasuredStrip[]): Estimate | undefined => {
  const factors = strips.flatMap(({ angleDeg, stopAtDeg }) => (stopAtDeg === undefined ? [] : [angleDeg / stopAtDeg]));
  if (factors.length === 0) return undefined;
  const value = factors.reduce((sum, f) => sum + f, 0) / factors.length;
  const freedom = factors.length - 1;
  const spread = Math.sqrt(factors.reduce((sum, f) => sum + (f - value) ** 2, 0) / Math.max(1, freedom));
  // One strip has no spread of its own: half a degree of reading at a right angle.
  const standardError = freedom === 0 ? 0.5 / 90 : spread / Math.sqrt(factors.length);
  return { value, standardError, within95: standardError * (freedom === 0 ? NORMAL95 : student95(freedom)) };
};
