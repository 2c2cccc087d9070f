import { type FoldShare, foldUp, WHOLE } from '../fold/fold-up.ts';
import { foldedSeat } from '../fold/seat.ts';
import { hasStop } from '../model/finding.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Part } from '../model/part.ts';
import {
  type BentZone,
  bentZone,
  linesAcross,
  panelRegion,
  type Region,
  stripsOf,
} from './regions.ts';
import { type RimPoint, blankRings } from './rings.ts';
import { type Cut, type Subdivision, subdivide } from './subdivide.ts';
import { NO_WIDTH_MM } from '../geometry/tolerance.ts';

/** A fold whose zone has no width in the flat: its two panels share a line there. */
export interface Seam {
  readonly zone: BentZone;
  readonly parent: number;
  readonly child: number;
  /**
   * Number of strips that its bend is divided into; none when it turns about its line in mid-sheet.
   */
  readonly strips: number;
}

/**
 * A blank cut into cells that each belong to one panel or to one bend, and the positions of those
 * panels and bends.
 */
export interface BlankPlan {
  readonly division: Subdivision;
  /** Whether the rim runs on without a corner, for every point of the given rings. */
  readonly smooth: readonly boolean[];
  /** The regions, by the numbers that the cells carry. */
  readonly regions: readonly Region[];
  /** The seams, by the number of their cut; cuts that bound a bend zone have none. */
  readonly seams: ReadonlyMap<number, Seam>;
}

/**
 * The plan of a blank; `undefined` for a flat pattern that a finding stops because it has no
 * outline or lies on itself. `share` is how much of its angle each fold is turned by, more than 0; the
 * cells are the same at every stage. Bends and arcs become chords that stay within `sagMm` of them.
 */
export const planBlank = (
  part: Part,
  flat: FlatPattern,
  sagMm: number,
  share: FoldShare = WHOLE,
): BlankPlan | undefined => {
  if (flat.outline.length === 0 || hasStop(flat.findings)) return undefined;
  const body = foldUp(part, flat, share);
  const seat = foldedSeat(flat, body.poses);
  const zones = body.joints.map((joint) =>
    bentZone(flat, body, seat, { joint, share: share(joint.fold.id) }),
  );
  const regions = [...flat.panels.map((p) => panelRegion(flat, body, seat, p.id)), ...zones];
  const numberOf = panelNumbers(flat);
  const cuts: Cut[] = [];
  const seams = new Map<number, Seam>();
  zones.forEach((zone, i) => {
    const { bend } = zone;
    const [parent, child] = [numberOf(bend.parent), numberOf(bend.child)];
    if (parent === child) return;
    if (bend.midSurface === true || bend.allowanceMm < NO_WIDTH_MM) {
      seams.set(cuts.length, {
        zone,
        parent,
        child,
        strips: bend.midSurface === true ? 0 : stripsOf(zone, sagMm),
      });
      cuts.push({
        from: bend.parentTangent[0],
        to: bend.parentTangent[1],
        left: parent,
        right: child,
      });
      return;
    }
    const own = flat.panels.length + i;
    const count = stripsOf(zone, sagMm);
    linesAcross(zone, count).forEach(([from, to], k) =>
      cuts.push({ from, to, left: k === 0 ? parent : own, right: k === count ? child : own }),
    );
  });
  const rings = blankRings(flat, sagMm);
  const division = subdivide(
    rings.map((ring) => ring.map((p: RimPoint) => p.at)),
    cuts,
  );
  return { division, smooth: rings.flat().map((p) => p.smooth), regions, seams };
};

/**
 * Numbers the panels. Panels joined by a fold of no angle lie in one plane and count as the first
 * of them.
 */
const panelNumbers = (flat: FlatPattern): ((panel: string) => number) => {
  const numbers = new Map(flat.panels.map((p, i) => [p.id, i]));
  for (const { parent, child, angleDeg, allowanceMm } of flat.bends) {
    if (angleDeg > 0 || allowanceMm >= NO_WIDTH_MM) continue;
    const [kept, gone] = [numbers.get(parent) as number, numbers.get(child) as number];
    for (const [id, n] of numbers) if (n === gone) numbers.set(id, kept);
  }
  return (panel) => numbers.get(panel) as number;
};
