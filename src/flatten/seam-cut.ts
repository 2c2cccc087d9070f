import { cosDeg, sinDeg } from '../geometry/degrees.ts';
import type { Joint } from '../fold/joint.ts';
import type { Fold } from '../model/part.ts';

/**
 * A fold at which a part is cut apart, and how its two panels are joined there again.
 *
 * `weld`: edge against edge. `lap`: the panel `on` is folded up inside the other one, and lies on its
 * inside face over a flat land of `landMm`. `tab`: the panel `on` ends on the inside face of the other
 * one, with tabs that stand in slots in the edge of that, `clearanceMm` all round.
 */
export type SeamCut = { readonly fold: string } & (
  | { readonly way: 'weld' }
  | { readonly way: 'lap'; readonly on: string; readonly landMm: number }
  | { readonly way: 'tab'; readonly on: string; readonly clearanceMm: number }
);

/** Past this angle two edges do not stand against each other any more: it is a hem, not a corner. */
const MOST_WELD_DEG = 150;

/**
 * A lap flange of less than this takes more off the edge that it grows on than two thicknesses; one of
 * more leaves no way in to the seam.
 */
const LAP_DEG = [30, 120] as const;

/** Tabs with square ends hold nothing square where the panels lean much. */
const TAB_DEG = [60, 105] as const;

/** Whether a fold can be a weld seam: an edge against an edge, with room for it. */
export const isWeldable = ({ angleDeg, midSurface, teardropMm }: Fold): boolean =>
  angleDeg > 0 && angleDeg <= MOST_WELD_DEG && midSurface !== true && teardropMm === undefined;

/** Whether a fold can be joined in this way. */
export const canBeJoined = (fold: Fold, way: SeamCut['way']): boolean => {
  const [least, most] = way === 'lap' ? LAP_DEG : way === 'tab' ? TAB_DEG : [0, MOST_WELD_DEG];
  return isWeldable(fold) && fold.angleDeg >= least && fold.angleDeg <= most;
};

const tanHalf = (deg: number): number => sinDeg(deg / 2) / cosDeg(deg / 2);

/**
 * How far beyond the edge of a panel, as it is drawn at a fold, the line lies in which the outside
 * faces of its two panels meet, mm.
 */
export const beyondEdgeMm = ({ fold, thicknessMm, figures }: Joint): number =>
  (fold.insideRadiusMm + thicknessMm) * tanHalf(fold.angleDeg) - figures.setbackMm;

/**
 * How near to that line a square end comes that reaches no further than the bend would: to the line
 * itself up to 90 degrees, and over that to the outermost tangent of the bend.
 */
export const endMm = ({ fold: { angleDeg, insideRadiusMm }, thicknessMm }: Joint): number =>
  angleDeg <= 90 ? 0 : (insideRadiusMm + thicknessMm) * (tanHalf(angleDeg) - 1);

/** How far from that line a square end stays clear of the inside face of the other panel. */
const clearMm = ({ fold: { angleDeg }, thicknessMm }: Joint, gapMm: number): number =>
  (thicknessMm * (1 + Math.max(0, -cosDeg(angleDeg))) + gapMm) / sinDeg(angleDeg);

/**
 * How far the edge of a panel, as it is drawn at a fold, goes back for a seam in its place, mm: of a
 * weld to the line in which the inside faces meet, and half the gap between two edges that meet at
 * the angle; of a lap as far as a plane is moved in by a thickness on the panel that the flange grows
 * on, and not at all on the other; of tabs to the clearance before the inside face of the other panel.
 */
export const setBackMm = (joint: Joint, cut: SeamCut, panel: string, gapMm: number): number => {
  const { fold, figures, thicknessMm } = joint;
  const { angleDeg } = fold;
  if (cut.way === 'weld')
    return (
      figures.setbackMm -
      fold.insideRadiusMm * tanHalf(angleDeg) +
      gapMm / (2 * cosDeg(angleDeg / 2))
    );
  if (cut.way === 'lap') return cut.on === panel ? thicknessMm / sinDeg(angleDeg) : 0;
  return Math.max(0, clearMm(joint, cut.clearanceMm) - beyondEdgeMm(joint));
};

/**
 * How far from either end of a seam flanges and tabs keep, mm: clear of a neighbour's sheet and bend,
 * and of the relief beside it.
 */
export const insetMm = (
  { thicknessMm, fold }: Joint,
  { leastSlotMm }: { readonly leastSlotMm: number },
): number => 2 * thicknessMm + fold.insideRadiusMm + leastSlotMm;
