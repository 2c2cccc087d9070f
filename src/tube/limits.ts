/** Wall factor: outside diameter over wall (a tooling maker's page: 2.0 in x .065 in is 30). */
export const wallFactor = (diameterMm: number, wallMm: number): number => diameterMm / wallMm;

/** Radius of a bend in outside diameters. */
export const diametersOfBend = (diameterMm: number, radiusMm: number): number =>
  radiusMm / diameterMm;

/**
 * How much the outside of a bend is stretched, as a share: (D / 2) / R (a tooling maker's formulas:
 * Ro / R - 1).
 */
export const stretchOutside = (diameterMm: number, radiusMm: number): number =>
  diameterMm / 2 / radiusMm;

/**
 * Ovality of a bend in percent: the difference of its greatest and least diameter over the diameter
 * before bending (US federal guide specification: not over 8 % for bends of 5 diameters or more).
 */
export const ovalityPct = (mostMm: number, leastMm: number, diameterMm: number): number =>
  (100 * (mostMm - leastMm)) / diameterMm;

/**
 * Radius in diameters below which a bend is asked about (FIA Appendix J 253-8.3.3 and Formula SAE
 * rules F.5.2.1: three diameters or more).
 */
export const LEAST_DIAMETERS = 3;

/** Least over greatest diameter across a bend that is to be accepted (FIA Appendix J 253-8.3.3). */
export const LEAST_OVER_GREATEST = 0.9;

/**
 * Wall factor over diameters of bend above which a bench bender without a mandrel is likely to flatten
 * or wrinkle the tube (common practice: the charts of tooling makers ask for a mandrel from some 6 to
 * 10 on).
 */
export const MOST_WALL_OVER_BEND = 8;

/** A bend of less has a plane that nobody can set: 3 degrees (common practice). */
export const SHALLOW_DEG = 3;

/**
 * Least diameter across a bend of a fluid line, as a share of the tube's (FAA maintenance handbook: not
 * less than 75 % of the original outside diameter).
 */
export const LEAST_OF_FLUID_LINE = 0.75;
