import type { MeasuredBend } from '../../model/bend-rule.ts';
import type { Bend } from '../bend.ts';
import { hemFormOf } from '../hem.ts';

/** How far outside the measured thicknesses a bend may lie, as a share of the nearest one. */
const REACH = 0.25;

/**
 * How far outside the measured angles a bend may lie, degrees. K itself hardly changes with the
 * angle, but its reading does.
 */
const ANGLE_REACH_DEG = 30;

/**
 * The rows that a bend goes by: those of the nearest thinner and the nearest thicker sheet, or just
 * one of them.
 */
export interface Neighbours {
  readonly below: MeasuredBend;
  readonly above: MeasuredBend;
  /** The share that the row above counts for. */
  readonly share: number;
}

/**
 * K from the shop's own bends, interpolated along a straight line between the nearest thicknesses.
 * Each thickness gives the row whose radius is nearest. `undefined` where the measured thicknesses
 * or angles do not reach. Hems are looked up among hems.
 */
export const measuredK = (rows: readonly MeasuredBend[], bend: Bend): number | undefined => {
  const found = measuredNeighbours(rows, bend);
  return found && between(found, ({ kFactor }) => kFactor);
};

/**
 * The inside radius that belongs to that K, mm: the one that the tool gave. The radius of `bend`
 * only says which tool is meant where the same sheet was folded with several.
 */
export const measuredRadiusMm = (rows: readonly MeasuredBend[], bend: Bend): number | undefined => {
  const found = measuredNeighbours(rows, bend);
  return found && between(found, ({ insideRadiusMm }) => insideRadiusMm);
};

/** The share of a bend that stays, from the rows that give one; looked up in the same way as K. */
export const measuredSpringback = (
  rows: readonly MeasuredBend[],
  bend: Bend,
): number | undefined => {
  const found = measuredNeighbours(
    rows.filter((r) => r.springback !== undefined),
    bend,
  );
  return found && between(found, ({ springback = 1 }) => springback);
};

/** How a bend differs from those measured, as a sentence; `undefined` when it does not. */
export const measuredRemark = (rows: readonly MeasuredBend[], bend: Bend): string | undefined => {
  const found = measuredNeighbours(rows, bend);
  if (found === undefined) return undefined;
  const { below, above } = found;
  if (below !== above)
    return `K lies between those measured on ${below.thicknessMm} and ${above.thicknessMm} mm sheet.`;
  if (below.thicknessMm !== bend.thicknessMm)
    return `K is that measured on ${below.thicknessMm} mm sheet, the nearest there is.`;
  return bend.angleDeg < below.anglesDeg[0] || bend.angleDeg > below.anglesDeg[1]
    ? `K was measured on bends of ${below.anglesDeg.join(' to ')} degrees.`
    : undefined;
};

/** The row of a bend; the nearer one where the bend lies between two. */
export const measuredRow = (
  rows: readonly MeasuredBend[],
  bend: Bend,
): MeasuredBend | undefined => {
  const found = measuredNeighbours(rows, bend);
  return found && (found.share > 0.5 ? found.above : found.below);
};

/** Two rows of one tool go before rows of two tools, because K belongs to the tool as well. */
export const measuredNeighbours = (
  rows: readonly MeasuredBend[],
  bend: Bend,
): Neighbours | undefined => {
  const form = hemFormOf(bend);
  // A hem that is open counts as a bend as well, if bends were measured that far.
  const own = rows.filter((r) => r.hem === form);
  const near = (
    own.length > 0 || form !== 'open' ? own : rows.filter((r) => r.hem === undefined)
  ).filter(
    ({ anglesDeg: [least, most] }) =>
      bend.angleDeg >= least - ANGLE_REACH_DEG && bend.angleDeg <= most + ANGLE_REACH_DEG,
  );
  const first = nearest(near, bend);
  if (first === undefined) return undefined;
  const ofItsTool = onBothSides(
    near.filter((r) => r.machine === first.machine && r.tool === first.tool),
    bend,
  );
  if (ofItsTool !== undefined) return ofItsTool;
  const ofAny = onBothSides(near, bend);
  if (ofAny !== undefined) return ofAny;
  return Math.abs(first.thicknessMm - bend.thicknessMm) > REACH * first.thicknessMm
    ? undefined
    : { below: first, above: first, share: 0 };
};

const onBothSides = (rows: readonly MeasuredBend[], bend: Bend): Neighbours | undefined => {
  const below = nearest(
    rows.filter((r) => r.thicknessMm <= bend.thicknessMm),
    bend,
  );
  const above = nearest(
    rows.filter((r) => r.thicknessMm >= bend.thicknessMm),
    bend,
  );
  if (below === undefined || above === undefined) return undefined;
  const span = above.thicknessMm - below.thicknessMm;
  return span === 0
    ? { below, above: below, share: 0 }
    : { below, above, share: (bend.thicknessMm - below.thicknessMm) / span };
};

const between = (
  { below, above, share }: Neighbours,
  figure: (row: MeasuredBend) => number,
): number => figure(below) + share * (figure(above) - figure(below));

const nearest = (rows: readonly MeasuredBend[], bend: Bend): MeasuredBend | undefined => {
  const away = (r: MeasuredBend): number =>
    Math.abs(r.thicknessMm - bend.thicknessMm) * 1e6 +
    Math.abs(r.insideRadiusMm - bend.insideRadiusMm);
  return rows.reduce<MeasuredBend | undefined>(
    (best, r) => (best === undefined || away(r) < away(best) ? r : best),
    undefined,
  );
};
