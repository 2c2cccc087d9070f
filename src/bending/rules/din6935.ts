import { setbackMm } from '../setback.ts';
import type { Bend } from '../bend.ts';

/**
 * DIN 6935: k = 0.65 + 0.5 lg(r / s), at most 1 (so from r / s = 5 on). Half of it is the K factor
 * from the inside face. For a radius so small that the formula falls below 0 it is 0: the formula
 * has no meaning there (`DIN6935_ZERO_RATIO`), and parts are not made by it (see `ruleProblem`).
 *
 * Source: Tabellenbuch Metall (Europa-Lehrmittel), sheet on bending; DIN 6935, English digest.
 */
export const din6935K = (insideRadiusMm: number, thicknessMm: number): number =>
  insideRadiusMm <= 0
    ? 0
    : Math.min(1, Math.max(0, 0.65 + 0.5 * Math.log10(insideRadiusMm / thicknessMm)));

/**
 * Inside radius over thickness from which the standard gives k: its table of k in steps begins at r
 * / s = 0.65 (from memory; the formula is that table drawn as a line). Under it the formula is only
 * carried on.
 */
export const DIN6935_LEAST_RATIO = 0.65;

/**
 * Where the formula comes to k = 0, and the neutral line to the inside face: 10^-1.3. Under it k
 * has no meaning.
 */
export const DIN6935_ZERO_RATIO = 10 ** -1.3;

/** Smallest bend, in degrees, at which DIN 6935 gives a compensation value; under it v = 0. */
export const DIN6935_LEAST_BEND_DEG = 15;

/**
 * Length of the bend zone after DIN 6935. The standard gives v, to be added to the legs: up to 90
 * degrees of bend v = A pi / 180 (r + s k / 2) - 2 (r + s) tan(A / 2), over it v = A pi / 180 (r +
 * s k / 2) - 2 (r + s), so that the zone measures 2 setbacks + v, the arc on the neutral line.
 * Under 15 degrees of bend v = 0: the zone is 2 setbacks.
 *
 * Source: as `din6935K`.
 */
export const din6935AllowanceMm = ({ thicknessMm, insideRadiusMm, angleDeg }: Bend): number => {
  if (angleDeg < DIN6935_LEAST_BEND_DEG)
    return 2 * setbackMm(angleDeg, insideRadiusMm, thicknessMm, 'outside');
  return (
    ((Math.PI * angleDeg) / 180) *
    (insideRadiusMm + (thicknessMm * din6935K(insideRadiusMm, thicknessMm)) / 2)
  );
};
