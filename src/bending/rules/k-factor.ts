import type { Bend } from '../bend.ts';

/**
 * Arc length on a neutral line at K thicknesses from the inside face: A pi / 180 (r + K t). This is
 * the definition of the K factor; Groover, Fundamentals of Modern Manufacturing, sheet-metal
 * bending (from memory).
 */
export const kFactorAllowanceMm = (
  k: number,
  { thicknessMm, insideRadiusMm, angleDeg }: Bend,
): number => ((Math.PI * angleDeg) / 180) * (insideRadiusMm + k * thicknessMm);
