import { overlap } from '../../geometry/convex-polygon.ts';
import { type Extents, pointExtents } from '../../geometry/extents.ts';
import { movePoint, turnedBy } from '../../geometry/motion2.ts';
import { NOISE_MM } from '../../geometry/tolerance.ts';
import { cross, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { Label } from '../../model/picture.ts';
import { textWidthMm } from './text-width.ts';

/** A straight line on the paper. */
export type Line2 = readonly [from: Vec2, to: Vec2];

/**
 * What something takes up on the paper: a convex polygon, counter-clockwise, and the level box round
 * it. Grounds that touch each other are clear of each other.
 */
export interface Ground {
  readonly corners: readonly Vec2[];
  readonly box: Extents;
}

const groundOf = (corners: readonly Vec2[]): Ground => ({
  corners,
  box: pointExtents(corners) as Extents,
});

const cornersOf = ({ minX, minY, maxX, maxY }: Extents): Vec2[] => [
  [minX, minY],
  [maxX, minY],
  [maxX, maxY],
  [minX, maxY],
];

export const boxGround = (box: Extents): Ground => groundOf(cornersOf(box));

const DISC_CORNERS = 16;

/** The polygon round a disc. */
export const discGround = ([x, y]: Vec2, radiusMm: number): Ground => {
  const reach = radiusMm / Math.cos(Math.PI / DISC_CORNERS);
  return groundOf(
    Array.from({ length: DISC_CORNERS }, (_, i): Vec2 => {
      const turn = (2 * Math.PI * (i + 0.5)) / DISC_CORNERS;
      return [x + reach * Math.cos(turn), y + reach * Math.sin(turn)];
    }),
  );
};

/** A level box that is turned about its origin, which lies at a point of the paper. */
export const turnedGround = (box: Extents, [x, y]: Vec2, angleDeg: number): Ground => {
  // Most texts are level, and hundreds of places are tried for each.
  if (angleDeg === 0) {
    const moved = {
      minX: box.minX + x,
      minY: box.minY + y,
      maxX: box.maxX + x,
      maxY: box.maxY + y,
    };
    return { corners: cornersOf(moved), box: moved };
  }
  const turn = turnedBy(angleDeg, x, y);
  return groundOf(cornersOf(box).map((p) => movePoint(turn, p)));
};

/** The reach of letters under the base line and above it, as shares of the size of Helvetica. */
const DEPTH = 0.22;
const HEIGHT = 0.75;

/** Clear paper round a text, mm: before and behind it, and over and under it. */
export interface Clearance {
  readonly aside: number;
  readonly over: number;
}

/** The letters of a line of text, and clear paper round them. */
export const textGround = (
  { at, sizeMm, text, align = 'left', isBold = false, angleDeg = 0 }: Label,
  { aside, over }: Clearance = { aside: 0, over: 0 },
): Ground => {
  const wide = textWidthMm(text, sizeMm, isBold);
  const start = -wide * { left: 0, middle: 1 / 2, right: 1 }[align];
  const box: Extents = {
    minX: start - aside,
    minY: -DEPTH * sizeMm - over,
    maxX: start + wide + aside,
    maxY: HEIGHT * sizeMm + over,
  };
  return turnedGround(box, at, angleDeg);
};

/** Whether two grounds have more in common than a part of their edges. */
export const doOverlap = (a: Ground, b: Ground): boolean =>
  a.box.minX < b.box.maxX &&
  b.box.minX < a.box.maxX &&
  a.box.minY < b.box.maxY &&
  b.box.minY < a.box.maxY &&
  overlap(a.corners, b.corners);

export const liesWithin = ({ box }: Ground, { minX, minY, maxX, maxY }: Extents): boolean =>
  box.minX >= minX - NOISE_MM &&
  box.minY >= minY - NOISE_MM &&
  box.maxX <= maxX + NOISE_MM &&
  box.maxY <= maxY + NOISE_MM;

/** Whether a straight line runs through a ground. */
export const runsThrough = (ground: Ground, [from, to]: Line2): boolean => {
  const { box } = ground;
  if (Math.max(from[0], to[0]) < box.minX || Math.min(from[0], to[0]) > box.maxX) return false;
  if (Math.max(from[1], to[1]) < box.minY || Math.min(from[1], to[1]) > box.maxY) return false;
  // The shares of the line between which it lies on the inner side of every edge (Cyrus and Beck 1978).
  let enter = 0;
  let leave = 1;
  for (const { corner, way } of sidesOf(ground)) {
    const start = cross(way, sub(from, corner)) - NOISE_MM;
    const end = cross(way, sub(to, corner)) - NOISE_MM;
    if (start <= 0 && end <= 0) return false;
    if (start < 0) enter = Math.max(enter, start / (start - end));
    if (end < 0) leave = Math.min(leave, start / (start - end));
  }
  return enter < leave;
};

interface Side {
  readonly corner: Vec2;
  /** Along the edge from there, of length 1. */
  readonly way: Vec2;
}

/** A ground is asked about every line on the paper: its edges are worked out once. */
const known = new WeakMap<Ground, readonly Side[]>();

const sidesOf = (ground: Ground): readonly Side[] => {
  const found = known.get(ground);
  if (found !== undefined) return found;
  const { corners } = ground;
  const sides = corners.map((corner, i) => ({
    corner,
    way: unit(sub(corners[(i + 1) % corners.length] as Vec2, corner)),
  }));
  known.set(ground, sides);
  return sides;
};
