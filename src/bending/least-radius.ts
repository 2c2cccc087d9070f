import type { LeastRadius, Material } from '../model/material.ts';

/** DIN 6935 asks a larger radius of a bend over this many degrees. */
const STEEP_DEG = 120;

/** A thickness at which a class ends is in the class, whatever rounding made of its inches. */
const ROUNDING_MM = 1e-9;

/**
 * Least inside radius of a material, mm, for a bend across the rolling direction. The upper end of
 * each thickness class belongs to it; sheet thicker than the last class takes the ratio of radius
 * and thickness at its end.
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
 * The same for a bend along the rolling direction, mm: DIN 6935 takes the radius of the next
 * thickness class, as it does for a steep bend, and no more for one that is both. Other standards
 * give no figure; theirs for steep bends stands in (common practice).
 */
export const leastRadiusAlongGrainMm = (material: Material, thicknessMm: number): number =>
  leastRadiusMm(material, thicknessMm, 180);
