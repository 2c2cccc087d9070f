import type { MeasuredBend } from '../../model/bend-rule.ts';
import type { Bend } from '../bend.ts';

/** How far outside the measured thicknesses a bend may lie, as a share of the nearest one. */
const REACH = 0.25;

/**
 * K from a shop's own bends: interpolated along a straight line between the nearest thicknesses, of each thickness
 * the row whose radius is nearest; `undefined` where the measured thicknesses do not reach.
 */
export const measuredK = (rows: readonly MeasuredBend[], bend: Bend): number | undefined => {
  const below = nearest(rows.filter((r) => r.thicknessMm <= bend.thicknessMm), bend);
  const above = nearest(rows.filter((r) => r.thicknessMm >= bend.thicknessMm), bend);
  if (below !== undefined && above !== undefined) {
    const span = above.thicknessMm - below.thicknessMm;
    if (span === 0) return below.kFactor;
    return below.kFactor + ((bend.thicknessMm - below.thicknessMm) / span) * (above.kFactor - below.kFactor);
  }
  const only = below ?? above;
  if (only === undefined || Math.abs(only.thicknessMm - bend.thicknessMm) > REACH * only.thicknessMm) return undefined;
  return only.kFactor;
};

const nearest = (rows: readonly MeasuredBend[], bend: Bend): MeasuredBend | undefined => {
  const away = (r: MeasuredBend): number =>
    Math.abs(r.thicknessMm - bend.thicknessMm) * 1e6 + Math.abs(r.insideRadiusMm - bend.insideRadiusMm);
  return rows.reduce<MeasuredBend | undefined>((best, r) => (best === undefined || away(r) < away(best) ? r : best), undefined);
};
