import type { Bend } from '../bend.ts';

/** Share of the thickness in a square bend, by material group: formulas 32 to 34. */
export const MACHINERYS_SHARE = { mh1: 0.55, mh2: 0.64, mh3: 0.71 } as const;

/**
 * Length of a bend made with simple tools or on the bench: 0.55 T, 0.64 T or 0.71 T plus 1.57 R (as
 * printed, not pi / 2) for 90 degrees; other angles in proportion.
 *
 * Source: Machinery's Handbook, 31st edition, p. 1421.
 */
export const machinerysAllowanceMm = (group: keyof typeof MACHINERYS_SHARE, bend: Bend): number =>
  ((MACHINERYS_SHARE[group] * bend.thicknessMm + 1.57 * bend.insideRadiusMm) * bend.angleDeg) / 90;
