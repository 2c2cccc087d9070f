import type { Ring } from './inputs.ts';

export const heightOf = (v: Ring): number => v.outerHeight ?? v.outer;

/**
 * Diameter of the largest circle round the centre that stays on the plate: the diameter of a round
 * one, the short side of others.
 */
export const innermost = (v: Ring): number =>
  v.shape === 'round' ? v.outer : Math.min(v.outer, heightOf(v));

/** Least web beside a hole: it is not cut narrower than the cutter's slot. */
export const webMm = (v: Ring): number => v.leastSlotMm;

/** Angles of the bolt holes, degrees. */
export const boltAngles = (v: Ring): number[] =>
  Array.from({ length: v.bolts }, (_, i) => v.boltStart + (360 * i) / v.bolts);

export const boltCentre = (v: Ring, deg: number): readonly [number, number] => {
  const a = (deg * Math.PI) / 180;
  return [(v.boltCircle / 2) * Math.cos(a), (v.boltCircle / 2) * Math.sin(a)];
};

/** The smallest strip of metal outside a bolt hole. */
export function rimMm(v: Ring): number {
  if (v.shape === 'round') return (v.outer - v.boltCircle - v.boltHole) / 2;
  const spare = boltAngles(v).map((deg) => cornerRimMm(v, boltCentre(v, deg)));
  return Math.min(...spare) - v.boltHole / 2;
}

/**
 * Distance from a point to the edge of a plate: to its sides, or to the arc or the chamfer where it
 * lies in a corner.
 */
function cornerRimMm(v: Ring, [x, y]: readonly [number, number]): number {
  const r = v.cornerRadiusMm;
  const [dx, dy] = [v.outer / 2 - Math.abs(x), heightOf(v) / 2 - Math.abs(y)];
  if (v.cornerChamferMm > 0) return Math.min(dx, dy, (dx + dy - v.cornerChamferMm) / Math.SQRT2);
  return dx < r && dy < r ? r - Math.hypot(r - dx, r - dy) : Math.min(dx, dy);
}
