import { setbackMm } from '../bending/setback.ts';
import type { Observation } from '../statistics/least-squares.ts';
import type { MeasuredStrip, Readings } from './strip.ts';

/** One equation in inside radius and K, and the reading it comes from. */
export interface Reading extends Observation {
  /** Number of the strip. */
  readonly strip: number;
  readonly of: 'legs' | 'radius';
}

/**
 * The equations of the folded strips. Legs less flat length is the deduction: 2 (r + t) tan(A/2) -
 * A (r + K t), and over 90 degrees 2 (r + t) - A (r + K t), which is linear in r and K. Readings of
 * the radius come after the strips, in their order.
 */
export const readingsOf = (strips: readonly MeasuredStrip[], errors: Readings): Reading[] => [
  ...strips.map((strip) => legsOf(strip, errors)),
  ...strips.flatMap(({ number, insideRadiusMm }): Reading[] =>
    insideRadiusMm === undefined
      ? []
      : [
          {
            strip: number,
            of: 'radius',
            row: [1, 0],
            right: insideRadiusMm,
            sigma: errors.radiusMm,
          },
        ],
  ),
];

/** How much longer the legs are together than the strip was before folding, mm. */
export const deductionOf = ({ legAMm, legBMm, flatMm }: MeasuredStrip): number =>
  legAMm + legBMm - flatMm;

/**
 * K from handbooks, for weighing errors of angle and thickness; its exact value hardly matters
 * there.
 */
const USUAL_K = 0.42;

function legsOf(strip: MeasuredStrip, errors: Readings): Reading {
  const { angleDeg, thicknessMm: t } = strip;
  const rad = (angleDeg * Math.PI) / 180;
  // Both setbacks together are this for every millimetre of r + t.
  const both = 2 * setbackMm(angleDeg, 0, 1, 'outside');
  const slope = angleDeg < 90 ? 1 / Math.cos(rad / 2) ** 2 : 0;
  // This is d/dA of the deduction; a radius that was not read is taken as t.
  const r = strip.insideRadiusMm ?? t;
  const byAngle = (((r + t) * slope - r - USUAL_K * t) * errors.angleDeg * Math.PI) / 180;
  const byThickness = (both - USUAL_K * rad) * errors.thicknessMm;
  return {
    strip: strip.number,
    of: 'legs',
    row: [both - rad, -rad * t],
    right: deductionOf(strip) - both * t,
    sigma: Math.hypot(Math.sqrt(3) * errors.lengthMm, byAngle, byThickness),
  };
}
