import { posePoint, type Pose } from '../../geometry/pose.ts';
import { type Extents, pointExtents } from '../../geometry/extents.ts';
import { cosDeg, sinDeg, tanDeg } from '../../geometry/degrees.ts';
import { mix3, type Vec3 } from '../../geometry/vec3.ts';
import type { BodyCheck } from './stroke-rules.ts';
import { boxRound, type Solid } from '../../geometry/convex-solid.ts';

/**
 * A cylinder round a panel, mm, with its axis along the machine. Whatever the cylinder cannot meet,
 * the panel cannot meet either, and cylinders cost little to place and compare.
 */
export interface BoundingCylinder {
  readonly middle: Vec3;
  readonly radiusMm: number;
  readonly halfLengthMm: number;
  /** Distance of its middle from the axis of the turn. */
  readonly distanceMm: number;
  /**
   * Direction of its middle from that axis, and how far it reaches to either side; all round when
   * the axis runs through it.
   */
  readonly rad: number;
  readonly halfRad: number;
}

/**
 * The box round a panel along the panel's own axes: its middle, and the distances from there to its
 * sides.
 */
export interface Box {
  readonly middle: Vec3;
  readonly halves: Vec3;
}

const boxesKnown = new WeakMap<readonly Solid[], Box>();

/** The box round some bodies, remembered, for every stroke asks for it; a point when there are none. */
export const boxAround = (solids: readonly Solid[]): Box => {
  const found = boxesKnown.get(solids) ?? boxOf(solids);
  boxesKnown.set(solids, found);
  return found;
};

function boxOf(solids: readonly Solid[]): Box {
  const corners = solids.flatMap((s) => s.corners);
  if (corners.length === 0) return { middle: [0, 0, 0], halves: [0, 0, 0] };
  const { low, high } = boxRound(corners);
  return { middle: mix3(low, 0.5, high, 0.5), halves: mix3(high, 0.5, low, -0.5) };
}

/** The cylinder round a box in its place. */
export function cylinderRound(pose: Pose, { middle, halves }: Box): BoundingCylinder {
  const { x, y, z } = pose;
  const a = halves[0];
  const b = halves[1];
  const c = halves[2];
  const placed = posePoint(pose, middle);
  const radiusMm = a * lengthInView(x) + b * lengthInView(y) + c * lengthInView(z);
  const distanceMm = lengthInView(placed);
  return {
    middle: placed,
    radiusMm,
    halfLengthMm: a * Math.abs(x[2]) + b * Math.abs(y[2]) + c * Math.abs(z[2]),
    distanceMm,
    rad: Math.atan2(placed[1], placed[0]),
    halfRad: distanceMm > radiusMm ? Math.asin(radiusMm / distanceMm) : Math.PI,
  };
}

/** Length of a vector as seen along the axis; `Math.hypot` takes several times as long. */
const lengthInView = (v: Vec3): number => Math.sqrt(v[0] * v[0] + v[1] * v[1]);

const ROUND = 2 * Math.PI;

/**
 * Whether a cylinder that turns about the z axis, counter-clockwise, may meet one that stays still.
 */
export function mayTouch(
  turning: BoundingCylinder,
  still: BoundingCylinder,
  turnRad: number,
): boolean {
  if (Math.abs(turning.distanceMm - still.distanceMm) >= turning.radiusMm + still.radiusMm)
    return false;
  if (Math.abs(turning.middle[2] - still.middle[2]) >= turning.halfLengthMm + still.halfLengthMm)
    return false;
  return sectorsMeet(turning, still, turnRad);
}

/** A sector round the z axis that something lies within. */
interface Sector {
  readonly rad: number;
  readonly halfRad: number;
}

/**
 * Whether a sector that turns counter-clockwise comes to share an angle with one that stays still.
 */
export const sectorsMeet = (turning: Sector, still: Sector, turnRad: number): boolean => {
  const halves = turning.halfRad + still.halfRad;
  const ahead = still.rad - turning.rad + halves;
  return ahead - ROUND * Math.floor(ahead / ROUND) <= turnRad + 2 * halves;
};

/**
 * The place of the bodies of some checks, with the height that they rise to, and the most that a
 * side turns past them.
 */
export interface Sweep {
  readonly box: Extents;
  readonly cos: number;
  readonly sin: number;
  /** The height of an arc over its chord, for each mm of its radius. */
  readonly rise: number;
}

const sweepsKnown = new WeakMap<readonly BodyCheck[], readonly Sweep[]>();

/** The sweeps of some checks, which many strokes have in common. */
export const sweepsOf = (checks: readonly BodyCheck[]): readonly Sweep[] => {
  const found = sweepsKnown.get(checks) ?? sweepsByWay(checks);
  sweepsKnown.set(checks, found);
  return found;
};

/** The sweep of the checks that turn one way, and that of those that turn the other. */
const sweepsByWay = (checks: readonly BodyCheck[]): readonly Sweep[] =>
  [checks.filter((c) => c.turnDeg >= 0), checks.filter((c) => c.turnDeg < 0)]
    .filter((some) => some.length > 0)
    .map(sweepOf);

function sweepOf(checks: readonly BodyCheck[]): Sweep {
  const box = pointExtents(checks.flatMap((c) => c.bodies.flatMap((b) => b.whole))) ?? {
    minX: 0,
    minY: 0,
    maxX: 0,
    maxY: 0,
  };
  const riseMm = Math.max(
    // Nothing rises without a V, not even at a right angle, whose tangent is endless.
    ...checks.map(({ turnDeg, turnedDeg = 0, halfVMm }) =>
      halfVMm === undefined ? 0 : halfVMm * tanDeg(Math.abs(turnDeg + turnedDeg)),
    ),
  );
  const turnDeg = checks.reduce(
    (most, c) => (Math.abs(c.turnDeg) > Math.abs(most) ? c.turnDeg : most),
    0,
  );
  return {
    box: { ...box, maxY: box.maxY + riseMm },
    cos: cosDeg(turnDeg),
    sin: sinDeg(turnDeg),
    rise: 1 - cosDeg(turnDeg / 2),
  };
}

/**
 * Whether a cylinder on its way round the z axis may meet what lies in the box. The box of the
 * way's chord, widened by the height of the arc, holds every way of up to half a turn.
 */
export function mayReach(
  { middle, radiusMm, distanceMm }: BoundingCylinder,
  { box, cos, sin, rise }: Sweep,
): boolean {
  const x = middle[0];
  const y = middle[1];
  const endX = cos * x - sin * y;
  const endY = sin * x + cos * y;
  const wider = radiusMm + rise * distanceMm;
  return (
    Math.min(x, endX) - wider <= box.maxX &&
    box.minX <= Math.max(x, endX) + wider &&
    Math.min(y, endY) - wider <= box.maxY &&
    box.minY <= Math.max(y, endY) + wider
  );
}
