import type { LeastRadius, Material } from '../model/material.ts';

/** DIN 6935 asks for a larger radius when a bend is over this many degrees. */
const STEEP_DEG = 120;

/** A thickness at the end of a class belongs to the class, however its inches were rounded. */
const ROUNDING_MM = 1e-9;

/**
 * Least inside radius of a material, mm, for a bend across the rolling direction. The upper end of
 * each thickness class belongs to it. Sheet thicker than the last class takes the ratio of radius
 * to thickness at the end of that class.
 */
export const leastRadiusMm = (material: Material, thicknessMm: number, angleDeg = 90): number => {
  const classes = material.leastRadius.value;
  const own = classes.find((c) => thicknessMm <= c.upToMm + ROUNDING_MM);
  const chosen = own ?? (classes.at(-1) as LeastRadius);
  const isSteep = angleDeg > STEEP_DEG;
  if ('factor' in chosen) return (isSteep ? chosen.steepFactor : chosen.factor) * thicknessMm;
  const radius = isSteep ? chosen.steepRadiusMm : chosen.radiusMm;
  return own === undefined ? (radius / chosen.upToMm) * thicknessMm : radius;
};

/**
 * The same for a bend along the rolling direction, mm. DIN 6935 takes the radius of the next
 * thickness class, as it does for a steep bend, and goes no further for a bend that is both. Other
 * standards give no figure, so theirs for steep bends stands in (common practice).
 */
export const leastRadiusAlongGrainMm = (material: Material, thicknessMm: number): number =>
  leastRadiusMm(material, thicknessMm, 180);
