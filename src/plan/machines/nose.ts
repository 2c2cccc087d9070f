import { hullOf } from '../../geometry/convex-polygon.ts';
import { cosDeg, sinDeg, tanDeg } from '../../geometry/degrees.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Folder, Section } from '../../model/machine.ts';
import { STEEPEST_DEG } from './pre-fold.ts';

/** Radii are ground and measured no better than this, mm. */
export const SAME_RADIUS_MM = 0.1;

/**
 * The nose of the shop that a bend is made with: the roundest one that is not rounder than the bend,
 * or else the sharpest there is. Where the shop names none, a sharp nose is assumed, in the marks as
 * in the search for contact and in the pictures.
 */
export const noseRadiusMm = ({ noseRadiiMm }: Folder, insideRadiusMm: number): number => {
  const noses = (noseRadiiMm?.value ?? []).toSorted((a, b) => a - b);
  return noses.findLast((r) => r <= insideRadiusMm + SAME_RADIUS_MM) ?? noses[0] ?? 0;
};

/** A bend that the nose is set for. */
export interface BendAtNose {
  readonly thicknessMm: number;
  readonly insideRadiusMm: number;
  readonly angleDeg: number;
}

/**
 * Distance from the hinge back to the tangent line of the clamped side, mm: (r + t) tan(A/2), plain
 * geometry. The outside faces of the bend cross at the hinge.
 */
export const tangentBehindHingeMm = ({
  thicknessMm,
  insideRadiusMm,
  angleDeg,
}: BendAtNose): number =>
  (thicknessMm + insideRadiusMm) * tanDeg(Math.min(angleDeg, STEEPEST_DEG) / 2);

/**
 * How far the front of the nose stands back from the leaf's edge, mm. The nose rests on the tangent
 * line, and its front lies one nose radius before it. At 90 degrees that is t + r - nose radius: one
 * thickness for a nose as round as the bend, and t + r for a sharp one. It is below 0 where a round
 * nose reaches over the edge, at a slight bend.
 */
export const noseGapMm = (bend: BendAtNose, radiusMm: number): number =>
  tangentBehindHingeMm(bend) - Math.min(radiusMm, bend.insideRadiusMm);

/**
 * The inside radius that a bend gets where the nose is left at a gap, the other way about: (gap +
 * nose radius) / tan(A/2) - t. It is below 0 where the sheet is pinched.
 */
export const radiusAtGapMm = (
  { thicknessMm, angleDeg }: Omit<BendAtNose, 'insideRadiusMm'>,
  gapMm: number,
  noseRadiusMm: number,
): number => (gapMm + noseRadiusMm) / tanDeg(Math.min(angleDeg, STEEPEST_DEG) / 2) - thicknessMm;

/**
 * The radius of a nose that the metal clears when it is swung past its angle, by turning about the
 * hinge: (r + t) tan(A/2) / tan(A'/2) - t, for the swung side touches the nose then (plain
 * geometry). A nose as round as the bend gives way by that much, for the metal winds itself tighter
 * about it and springs back.
 */
export const clearedRadiusMm = (bend: BendAtNose, swungDeg: number, radiusMm: number): number => {
  const most =
    tangentBehindHingeMm(bend) / tanDeg(Math.min(swungDeg, STEEPEST_DEG) / 2) - bend.thicknessMm;
  return Number.isFinite(most) ? Math.min(radiusMm, Math.max(0, most)) : radiusMm;
};

/** The arcs of a nose, below and above its front, are drawn with this many chords each. */
const CHORDS = 5;

/**
 * The lower part of a clamp, from its underside up the bevel to its vertical front, mm, with the
 * front of the nose at x = 0. A round nose touches underside and bevel, and a bevel that it fills
 * out is pushed forward by it.
 */
export function noseSection(m: Folder, radiusMm: number): Section {
  const [front, depth, bevelDeg] = [m.noseFrontMm.value, m.noseDepthMm.value, m.noseBevelDeg.value];
  const arc = Array.from({ length: 2 * CHORDS + 1 }, (_, i): Vec2 => {
    const deg = ((i < CHORDS ? 90 : 90 - bevelDeg) * (i - CHORDS)) / CHORDS;
    return [radiusMm * (cosDeg(deg) - 1), radiusMm * (sinDeg(deg) + 1)];
  });
  const [x, y] = arc.at(-1) as Vec2;
  const back = Math.max(front, -x);
  const top = y + (back + x) * tanDeg(bevelDeg);
  return hullOf([...arc, [-back, top], [-depth, top], [-depth, 0]]);
}
