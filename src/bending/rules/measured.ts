import type { MeasuredBend } from '../../model/bend-rule.ts';
import type { Bend } from '../bend.ts';

/** How far outside the measured thicknesses a bend may lie, as a share of the nearest one. */
const REACH = 0.25;

/** How far outside the measured angles, degrees: K hardly changes with the angle, the reading of it does. */
const ANGLE_REACH_DEG = 30;

/** The rows that a bend goes by: the nearest thinner and the nearest thicker sheet, or one of them alone. */
interface Neighbours {
  readonly below: MeasuredBend;
  readonly above: MeasuredBend;
  /** The share of the one above. */
  readonly share: number;
}

/**
 * K from a shop's own bends: interpolated along a straight line between the nearest thicknesses, of each thickness
 * the row whose radius is nearest; `undefined` where the measured thicknesses or angles do not reach.
 */
export const measuredK = (rows: readonly MeasuredBend[], bend: Bend): number | undefined => {
  const found = neighbours(rows, bend);
  return found && between(found, ({ kFactor }) => kFactor);
};

/** The share of a bend that stays, from the rows that say so; found like K. */
export const measuredSpringback = (rows: readonly MeasuredBend[], bend: Bend): number | undefined => {
  const found = neighbours(rows.filter((r) => r.springback !== undefined), bend);
  return found && between(found, ({ springback = 1 }) => springback);
};

/** How a bend is not quite one of those measured, as a sentence; `undefined` when it is. */
export const measuredRemark = (rows: readonly MeasuredBend[], bend: Bend): string | undefined => {
  const found = neighbours(rows, bend);
  if (found === undefined) return undefined;
  const { below, above } = found;
  if (below !== above) return `K lies between those measured on ${below.thicknessMm} and ${above.thicknessMm} mm sheet.`;
  if (below.thicknessMm !== bend.thicknessMm) return `K is that measured on ${below.thicknessMm} mm sheet, the nearest there is.`;
  return bend.angleDeg < below.anglesDeg[0] || bend.angleDeg > below.anglesDeg[1] ? `K was measured on bends of ${below.anglesDeg.join(' to ')} degrees.` : undefined;
};

const neighbours = (rows: readonly MeasuredBend[], bend: Bend): Neighbours | undefined => {
  const near = rows.filter(({ anglesDeg: [least, most] }) => bend.angleDeg >= least - ANGLE_REACH_DEG && bend.angleDeg <= most + ANGLE_REACH_DEG);
  const below = nearest(near.filter((r) => r.thicknessMm <= bend.thicknessMm), bend);
  const above = nearest(near.filter((r) => r.thicknessMm >= bend.thicknessMm), bend);
  if (below !== undefined && above !== undefined) {
    const span = above.thicknessMm - below.thicknessMm;
    return span === 0 ? { below, above: below, share: 0 } : { below, above, share: (bend.thicknessMm - below.thicknessMm) / span };
  }
  const only = below ?? above;
  if (only === undefined || Math.abs(only.thicknessMm - bend.thicknessMm) > REACH * only.thicknessMm) return undefined;
  return { below: only, above: only, share: 0 };
};

const between = ({ below, above, share }: Neighbours, figure: (row: MeasuredBend) => number): number => figure(below) + share * (figure(above) - figure(below));

const nearest = (rows: readonly MeasuredBend[], bend: Bend): MeasuredBend | undefined => {
  const away = (r: MeasuredBend): number =>
    Math.abs(r.thicknessMm - bend.thicknessMm) * 1e6 + Math.abs(r.insideRadiusMm - bend.insideRadiusMm);
  return rows.reduce<MeasuredBend | undefined>((best, r) => (best === undefined || away(r) < away(best) ? r : best), undefined);
};
