/**
 * Air bending in a V die, as the charts of toolmakers give it. Forces hold for sheet of the given
 * tensile strength; lengths are in mm.
 */

/**
 * Opening of the V for a thickness: 6 t up to 2.5 mm, 8 t above (two published charts say so of
 * folding practice; others go up to 10 t and 12 t on plate, which then bends with less force and a
 * larger radius).
 */
export const usualOpeningMm = (thicknessMm: number): number =>
  (thicknessMm <= 2.5 ? 6 : 8) * thicknessMm;

/**
 * A V narrower than this many thicknesses does not fit the sheet: force and radius get out of hand
 * (from memory; published charts begin at 6 t).
 */
export const LEAST_OPENING = 5;

/**
 * Inside radius that mild steel takes over a V: 5 V / 32 (published by a brake maker; charts print
 * 0.16 V).
 */
export const airRadiusMm = (openingMm: number): number => (5 * openingMm) / 32;

/**
 * Shortest leg that still lies on the shoulder of the V when the bend is done: V / (2 sin(opening
 * angle / 2)), which is 0.707 V at 90 degrees (published force charts and a brake maker's table).
 */
export const leastLegMm = (openingMm: number, angleDeg: number): number =>
  openingMm / (2 * Math.cos((angleDeg * Math.PI) / 360));

/**
 * Force of air bending, kN per metre of bend: 1.46 Rm t^2 / V. The factor reproduces a published
 * chart for Rm 450 MPa to within 4 % of its figures; textbooks have 1.33, which is 7 to 13 % lower.
 */
export const airForceKnPerM = (
  tensileMpa: number,
  thicknessMm: number,
  openingMm: number,
): number => (1.46 * tensileMpa * thicknessMm ** 2) / openingMm;
