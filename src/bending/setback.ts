import type { Measure } from '../model/part.ts';

/**
 * Setback of a bend: how far its tangent line lies from the mould line, on each side, mm.
 *
 * Up to 90 degrees it is (r + t) tan(A / 2), which reaches the crossing of the outside faces (FAA
 * AC 43.13-1B, table 4-7). Over 90 degrees that crossing runs away, and a leg is measured to the
 * outermost tangent of the bend: r + t (DIN 6935, legs for an opening angle up to 90 degrees).
 * Inside dimensions follow the same logic with the inside face: r tan(A / 2) and r.
 */
export const setbackMm = (
  angleDeg: number,
  insideRadiusMm: number,
  thicknessMm: number,
  measure: Measure,
): number => {
  const faceRadius = measure === 'outside' ? insideRadiusMm + thicknessMm : insideRadiusMm;
  if (angleDeg >= 90) return faceRadius;
  return faceRadius * Math.tan((angleDeg * Math.PI) / 360);
};
