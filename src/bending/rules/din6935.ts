import { setbackMm } from '../setback.ts';
import type { Bend } from '../bend.ts';

/**
 * DIN 6935: k = 0.65 + 0.5 lg(r / s), at most 1, which it reaches at r / s = 5. Half of it is the K
 * factor from the inside face. Where the radius is so small that the formula falls below 0, k is 0:
 * the formula has no meaning there (`DIN6935_ZERO_RATIO`), and no parts are made by it (see
 * `ruleProblem`).
 *
 * Source: Tabellenbuch Metall (Europa-Lehrmittel), sheet on bending; DIN 6935, English digest.
 */
export const din6935K = (insideRadiusMm: number, thicknessMm: number): number =>
  insideRadiusMm <= 0
    ? 0
    : Math.min(1, Math.max(0, 0.65 + 0.5 * Math.log10(insideRadiusMm / thicknessMm)));

/**
 * Ratio of inside radius to thickness from which the standard gives k: its table of k in steps
 * begins at r / s = 0.65 (from memory; the formula is that table drawn as a line). Below this ratio
 * the formula is only carried on.
 */
export const DIN6935_LEAST_RATIO = 0.65;

/**
 * Ratio r / s at which the formula gives k = 0, which puts the neutral line on the inside face:
 * 10^-1.3. Below it k has no meaning.
 */
export const DIN6935_ZERO_RATIO = 10 ** -1.3;

/** Smallest bend, in degrees, at which DIN 6935 gives a compensation value; under it v = 0. */
export const DIN6935_LEAST_BEND_DEG = 15;

/**
 * Length of the bend zone after DIN 6935. The standard gives v, which is added to the legs. Up to
 * 90 degrees of bend v = A pi / 180 (r + s k / 2) - 2 (r + s) tan(A / 2); over 90 degrees v = A pi
 * / 180 (r + s k / 2) - 2 (r + s). The zone is therefore 2 setbacks + v long, which is the arc on
 * the neutral line. Under 15 degrees of bend v = 0, and the zone is 2 setbacks.
 *
 * Source: the one of `din6935K`.
 */
export const din6935AllowanceMm = ({ thicknessMm, insideRadiusMm, angleDeg }: Bend): number => {
  if (angleDeg < DIN6935_LEAST_BEND_DEG)
    return 2 * setbackMm(angleDeg, insideRadiusMm, thicknessMm, 'outside');
  return (
    ((Math.PI * angleDeg) / 180) *
    (insideRadiusMm + (thicknessMm * din6935K(insideRadiusMm, thicknessMm)) / 2)
  );
};
