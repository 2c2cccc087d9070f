import {
  add,
  cross,
  distance,
  leftOf,
  polygon,
  scale,
  signedArea,
  sub,
  unit,
} from '../../src/template.ts';
import type { Loop, Vec2 } from '../../src/template.ts';

/**
 * Cross-section of a tank at a baffle, inside sizes, mm, seen from the side to which its flanges
 * point. Depths are those at the face away from the flanges. The origin is the left end of the
 * floor, and the roof is level.
 */
export interface BaffleSection {
  readonly widthMm: number;
  /** Distance from roof to floor, at the left and at the right wall. */
  readonly leftDepthMm: number;
  readonly rightDepthMm: number;
  /** Inside radius of the tank's corners at the floor and at the roof, 0 for sharp ones. */
  readonly floorRadiusMm: number;
  readonly roofRadiusMm: number;
  /**
   * How much the floor falls along the tank, towards the side to which the flanges point; 0 to less
   * than 90.
   */
  readonly floorSlopeDeg: number;
}

export type BaffleSide = 'floor' | 'right' | 'roof' | 'left';

/**
 * Sides in counter-clockwise order, as the edges of the section run; corner `i` is where edge `i`
 * starts.
 */
export const BAFFLE_SIDES: readonly BaffleSide[] = ['floor', 'right', 'roof', 'left'];

/**
 * The four corners of the section before rounding: floor left, floor right, roof right, roof left.
 */
export const sectionCorners = (s: BaffleSection): readonly Vec2[] => [
  [0, 0],
  [s.widthMm, s.leftDepthMm - s.rightDepthMm],
  [s.widthMm, s.leftDepthMm],
  [0, s.leftDepthMm],
];

/**
 * The corners of the section moved in by a clearance from floor, walls and roof; the clearance of
 * the floor is measured square to it.
 */
export const insetCorners = (s: BaffleSection, clearanceMm: number): readonly Vec2[] => {
  const corners = sectionCorners(s);
  const edges = corners.map((at, i) => {
    const dir = unit(sub(cornerAt(corners, i + 1), at));
    return {
      at: add(at, scale(leftOf(dir), clearanceMm * (i === 0 ? floorLean(s).length : 1))),
      dir,
    };
  });
  return edges.map(({ at, dir }, i) => {
    const before = edges[(i + 3) % 4] as (typeof edges)[number];
    return add(at, scale(dir, cross(sub(before.at, at), before.dir) / cross(dir, before.dir)));
  });
};

/** The corner at an index that may run past either end. */
export const cornerAt = (corners: readonly Vec2[], i: number): Vec2 => corners[(i + 4) % 4] as Vec2;

/** Length of the edge that starts at a corner. */
export const edgeMm = (corners: readonly Vec2[], i: number): number =>
  distance(cornerAt(corners, i), cornerAt(corners, i + 1));

/** Angle inside the section at a corner, degrees. */
export const cornerDeg = (corners: readonly Vec2[], i: number): number => {
  const [before, at, after] = [
    cornerAt(corners, i - 1),
    cornerAt(corners, i),
    cornerAt(corners, i + 1),
  ];
  const [a, b] = [unit(sub(after, at)), unit(sub(before, at))];
  return (Math.atan2(Math.abs(cross(a, b)), a[0] * b[0] + a[1] * b[1]) * 180) / Math.PI;
};

/**
 * Distance from a corner at which an arc of this radius touches its two edges: R cot(angle / 2)
 * (any table of plane figures).
 */
export const tangentMm = (radiusMm: number, angleDeg: number): number =>
  radiusMm / Math.tan((angleDeg * Math.PI) / 360);

/**
 * Bend angle of the flange on a side. Walls and roof are square to the baffle. The floor's normal
 * is (-sin b, cos b, cos b tan s) with b its slope across and s along the tank; the flange lies on
 * the floor when the cosine of its bend is the last part of that normal, so that with b = 0 the
 * angle is 90 - s.
 */
export const bendDegOf = (s: BaffleSection, side: BaffleSide): number => {
  if (side !== 'floor' || s.floorSlopeDeg === 0) return 90;
  const { along, length } = floorLean(s);
  return (Math.acos(along / length) * 180) / Math.PI;
};

/**
 * The floor's normal: its component along the tank, and its length when its component in the plane
 * of the section is 1.
 */
const floorLean = (s: BaffleSection): { readonly along: number; readonly length: number } => {
  const across = Math.atan2(s.leftDepthMm - s.rightDepthMm, s.widthMm);
  const along = Math.cos(across) * Math.tan((s.floorSlopeDeg * Math.PI) / 180);
  return { along, length: Math.hypot(1, along) };
};

/**
 * Area of the section, mm2: the trapezium less what its rounded corners take, R^2 (cot(a / 2) -
 * (180 - a) pi / 360) each.
 */
export const sectionAreaMm2 = (s: BaffleSection): number => {
  const corners = sectionCorners(s);
  const rounded = corners.map((_, i) =>
    roundingMm2(i < 2 ? s.floorRadiusMm : s.roofRadiusMm, cornerDeg(corners, i)),
  );
  return signedArea(loopOf(corners)) - rounded.reduce((sum, a) => sum + a, 0);
};

/**
 * What an arc takes off a corner, mm2: two right triangles R by R cot(a / 2), less the sector of
 * 180 - a degrees.
 */
const roundingMm2 = (radiusMm: number, angleDeg: number): number =>
  radiusMm * tangentMm(radiusMm, angleDeg) -
  (radiusMm * radiusMm * (180 - angleDeg) * Math.PI) / 360;

export const loopOf = (corners: readonly Vec2[]): Loop => polygon(...corners);
