import type { LeastRadius, Material } from '../model/material.ts';

/** A bend over this many degrees takes the radius of the next thicker class (DIN 6935). */
const STEEP_DEG = 120;

/**
 * Least inside radius of a material, mm, for a bend across the rolling direction. The upper end of each thickness
 * class belongs to it; sheet thicker than the last class takes the ratio of radius and thickness at its end.
 */
export const leastRadiusMm = (material: Material, thicknessMm: number, angleDeg = 90): number => {
  const classes = material.leastRadius.value;
  const own = classes.findIndex((c) => thicknessMm <= c.upToMm + 1e-9);
  const index = own < 0 ? classes.length - 1 : own;
  const isSteep = angleDeg > STEEP_DEG && index + 1 < classes.length;
  const chosen = classes[isSteep ? index + 1 : index] as LeastRadius;
  if ('factor' in chosen) return chosen.factor * thicknessMm;
  return own < 0 ? (chosen.radiusMm / chosen.upToMm) * thicknessMm : chosen.radiusMm;
};
