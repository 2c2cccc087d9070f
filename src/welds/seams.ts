import { HEM_DEG } from '../bending/hem.ts';
import { sinDeg } from '../geometry/degrees.ts';
import { invert, movePoint } from '../geometry/motion2.ts';
import { isInside } from '../geometry/inside.ts';
import { piecesOf } from '../geometry/piece.ts';
import { composePoses, invertPose, type Pose, posePoint, poseVector } from '../geometry/pose.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { distance, middle, type Vec2 } from '../geometry/vec2.ts';
import { cross3, dot3, length3, mix3, scale3, sub3, type Vec3 } from '../geometry/vec3.ts';
import type { FlatPanel, FlatPattern } from '../model/flat.ts';
import { facetsOf, type Part, slotsTaken } from '../model/part.ts';
import type { FoldedBody } from '../fold/fold-up.ts';
import { slabOf } from '../fold/slab.ts';
import {
  ALONG_DEG,
  type FreeEdge,
  LEAST_FACET_EDGE_MM,
  LEAST_SEAM_MM,
  type Seam,
  seamAlong,
} from './seam-along.ts';

/** A usual distance is exactly a thickness and the gap, so rounding must not decide there. */
const NEAR = 1.1;

/**
 * The seams where free edges lie along another panel when the part is folded: within about a
 * thickness and the corner gap of its face or its edge. Panels that a fold joins have no seam, nor
 * have hems; facets on the middle of the sheet are left out.
 */
export const cutSeams = (part: Part, flat: FlatPattern, body: FoldedBody): Seam[] =>
  flat.panels.length < 3 || part.folds.some((f) => f.midSurface === true)
    ? []
    : seamsBetween(part, flat, body, () => true);

/** The same between those panels alone that `may` be welded to each other, facets included. */
export const seamsBetween = (
  part: Part,
  flat: FlatPattern,
  { poses }: Pick<FoldedBody, 'poses'>,
  may: (a: string, b: string) => boolean,
): Seam[] => {
  // Panels are taken in the order of the part, so that it does not matter where the blank begins.
  const panels = part.panels.map(({ id }) => flat.panels.find((p) => p.id === id) as FlatPanel);
  const hems = new Set(panels.filter((panel) => isHem(panel, part, flat)).map(({ id }) => id));
  const pieceOf = piecesByFolds(part);
  const slabs = panels.map((p) => slabOf(p, part.thicknessMm));
  const reachMm =
    NEAR *
    (part.thicknessMm +
      Math.max(part.cornerGapMm, ...(part.corners ?? []).map((c) => c.gapMm ?? 0)));
  const found: Seam[] = [];
  const facets = facetsOf(part);
  const leastMm = (id: string): number => (facets.has(id) ? LEAST_FACET_EDGE_MM : LEAST_SEAM_MM);
  for (const edge of panels.flatMap((p) => freeEdges(p, flat, leastMm(p.id)))) {
    for (const other of slabs) {
      if (other.id === edge.panel || !may(edge.panel, other.id)) continue;
      if (areJoined(part, edge.panel, other.id)) continue;
      const isOfHem = hems.has(edge.panel) || hems.has(other.id);
      if (isOfHem && pieceOf(edge.panel) === pieceOf(other.id)) continue;
      const toOther = between(poses, other.id, edge.panel);
      if (isInSlot(part, edge, other.id, toOther)) continue;
      const seam = seamAlong(part, edge, other, toOther, reachMm);
      if (seam !== undefined && !found.some((f) => isSame(f, seam, poses, reachMm)))
        found.push(seam);
    }
  }
  return found;
};

/** Which panels folds join, in a body of several pieces: a panel by which each piece is known. */
const piecesByFolds = ({ panels, folds }: Part): ((panel: string) => string) => {
  const known = new Map(panels.map(({ id }) => [id, id]));
  for (const { parent, child } of folds) {
    const [from, to] = [known.get(child.panel), known.get(parent.panel) as string];
    for (const [id, root] of known) if (root === from) known.set(id, to);
  }
  return (panel) => known.get(panel) as string;
};

/**
 * Whether a panel is folded flat on a larger one, with nothing folded on it. It is then held by its
 * fold, and is not welded to what that leads to; to another piece it may be.
 */
const isHem = ({ id, areaMm2 }: FlatPanel, part: Part, flat: FlatPattern): boolean => {
  const [fold, ...more] = part.folds.filter(
    ({ parent, child }) => parent.panel === id || child.panel === id,
  );
  if (fold === undefined || more.length > 0 || fold.angleDeg < HEM_DEG) return false;
  const under = fold.parent.panel === id ? fold.child.panel : fold.parent.panel;
  return flat.panels.some((p) => p.id === under && p.areaMm2 > areaMm2);
};

/** The straight edges of a panel without a fold that are no shorter than `leastMm`. */
const freeEdges = (
  { id, region, placement }: FlatPanel,
  { bends }: FlatPattern,
  leastMm: number,
): FreeEdge[] => {
  const home = invert(placement);
  const tangents = bends.flatMap((b) => [
    ...(b.parent === id ? [b.parentTangent] : []),
    ...(b.child === id ? [b.childTangent] : []),
  ]);
  const folded = tangents.map(([p, q]) => [movePoint(home, p), movePoint(home, q)] as const);
  return piecesOf(region).flatMap(({ from, to, bulge }): FreeEdge[] => {
    const isFree =
      bulge === 0 &&
      distance(from, to) >= leastMm &&
      !folded.some((line) => liesOn(middle(from, to), line));
    return isFree ? [{ panel: id, from, to }] : [];
  });
};

const liesOn = (p: Vec2, [from, to]: readonly [Vec2, Vec2]): boolean =>
  distance(from, p) + distance(p, to) - distance(from, to) < NOISE_MM;

/** The end of a tooth in its slot: it is welded over from the far side, where nothing is in the way. */
const isInSlot = (part: Part, { from, to }: FreeEdge, other: string, toOther: Pose): boolean => {
  const [x, y] = posePoint(toOther, [...middle(from, to), 0]);
  const panel = part.panels.find(({ id }) => id === other);
  return slotsTaken(panel).some((slot) => isInside(slot, [x, y]));
};

const areJoined = (part: Part, a: string, b: string): boolean =>
  part.folds.some(
    ({ parent, child }) =>
      (parent.panel === a && child.panel === b) || (parent.panel === b && child.panel === a),
  );

/** The pose that takes the coordinates of one panel to those of another. */
const between = (poses: ReadonlyMap<string, Pose>, to: string, from: string): Pose =>
  composePoses(invertPose(poses.get(to) as Pose), poses.get(from) as Pose);

/** Whether two seams are one, because a seam where both panels end is found from either of them. */
const isSame = (a: Seam, b: Seam, poses: ReadonlyMap<string, Pose>, reachMm: number): boolean => {
  if (a.isLap || a.panels[0] !== b.panels[1] || a.panels[1] !== b.panels[0]) return false;
  const toA = between(poses, a.home, b.home);
  const apart = sub3(posePoint(toA, middleOf(b)), middleOf(a));
  return (
    length3(sub3(apart, scale3(a.along, dot3(apart, a.along)))) < 3 * reachMm &&
    length3(cross3(a.along, poseVector(toA, b.along))) < sinDeg(ALONG_DEG)
  );
};

const middleOf = ({ sides: [side] }: Seam): Vec3 =>
  side === undefined ? [0, 0, 0] : mix3(side.from, 0.5, side.to, 0.5);
