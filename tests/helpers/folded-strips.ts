import type { MeasuredStrip } from '../../src/calibrate/strip.ts';
import { deviates } from './deviates.ts';

/** The bends of a shop, and its errors of reading as a multiple of the usual ones. */
export interface OwnBends {
  readonly k: number;
  readonly r: number;
  readonly t: number;
  readonly noise?: number;
}

/**
 * Length that a bend takes off the sum of its legs, written a second time from the definition: two
 * setbacks, to the crossing of the outside faces up to 90 degrees and to the outermost tangent over
 * it, less the arc at K thicknesses.
 */
export const lostMm = (angleDeg: number, { k, r, t }: OwnBends): number => {
  const a = (angleDeg * Math.PI) / 180;
  return 2 * (r + t) * (angleDeg >= 90 ? 1 : Math.tan(a / 2)) - a * (r + k * t);
};

/**
 * Strips of 150 folded about their middle, as that shop would measure them: calliper to 0.1, angles
 * to 0.5, radius gauges to 0.25.
 */
export const foldedStrips = (
  own: OwnBends,
  angles: readonly number[],
  seed: number,
  withRadius = false,
): MeasuredStrip[] => {
  const normal = deviates(seed);
  const { r, t, noise = 1 } = own;
  const off = (sigma: number): number => noise * sigma * normal();
  return angles.map((angleDeg, i) => {
    const legs = 150 + lostMm(angleDeg, own);
    const legA = legs / 2 + off(0.25);
    return {
      number: i + 1,
      material: 'dc01',
      thicknessMm: t + off(0.02),
      machine: 'folder',
      tool: 'nose',
      flatMm: 150 + off(0.1),
      legAMm: legA + off(0.1),
      legBMm: legs - legA + off(0.1),
      angleDeg: angleDeg + off(0.5),
      ...(withRadius && { insideRadiusMm: Math.max(0, r + off(0.25)) }),
    };
  });
};
