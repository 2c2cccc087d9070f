import type { Bend } from '../bend.ts';

/**
 * Bend allowance by degrees: (0.01743 R + 0.0078 T) N, the constants as printed.
 *
 * Source: FAA-H-8083-31, Aviation Maintenance Technician Handbook - Airframe, ch. 4, 'Bending a
 * U-channel'.
 */
export const faaAllowanceMm = ({ thicknessMm, insideRadiusMm, angleDeg }: Bend): number =>
  (0.01743 * insideRadiusMm + 0.0078 * thicknessMm) * angleDeg;
