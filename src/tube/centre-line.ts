import { NO_DIRECTION, NOISE_DEG, SAME_POINT_MM } from '../geometry/tolerance.ts';
import { cross3, dot3, length3, scale3, sub3, unit3, type Vec3 } from '../geometry/vec3.ts';

/** A corner of a tube's centre line, where the lines of two legs meet. */
export interface TubeCorner {
  /** The place of the corner, mm. */
  readonly at: Vec3;
  /** Which of the points that were given it is, counted from 0. */
  readonly point: number;
  /** How far the tube is turned there: 0 straight on, 90 square. */
  readonly angleDeg: number;
  /**
   * Turn of the plane of the bend from that of the bend before, about the direction in which the
   * tube runs, by the right hand; 0 at the first, more than -180 and at most 180.
   */
  readonly rotateDeg: number;
}

/** A centre line of straight legs. */
export interface TubeLegs {
  readonly ends: readonly [Vec3, Vec3];
  /** Lengths from corner to corner, one more than there are corners, mm. */
  readonly legsMm: readonly number[];
  readonly corners: readonly TubeCorner[];
  /** Points that were given and at which the tube does not turn, counted from 0. */
  readonly straightOn: readonly number[];
}

/** Why points are no centre line, and the points that it is about, counted from 0. */
export interface NoCentreLine {
  readonly why: 'too few' | 'same place' | 'turns back';
  readonly points: readonly number[];
}

/** A tube that is turned by more comes back along itself, and no former makes that corner. */
export const MOST_TURN_DEG = 179;

/**
 * The legs of a tube whose centre line runs through points, and what its corners turn by. A point on
 * the line between its neighbours is no corner.
 */
export function tubeLegs(points: readonly Vec3[]): TubeLegs | NoCentreLine {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined || points.length < 2)
    return { why: 'too few', points: [] };
  const same = points.findIndex(
    (p, i) => i > 0 && length3(sub3(p, points[i - 1] as Vec3)) <= SAME_POINT_MM,
  );
  if (same >= 0) return { why: 'same place', points: [same - 1, same] };
  const turned = points.map((_, i) => turnAt(points, i));
  const back = turned.findIndex((deg) => deg > MOST_TURN_DEG);
  if (back >= 0) return { why: 'turns back', points: [back] };
  const kept = points.flatMap((at, i) =>
    i === 0 || i === points.length - 1 || (turned[i] as number) > STRAIGHT_ON_DEG
      ? [{ at, point: i }]
      : [],
  );
  const corners = kept.slice(1, -1);
  const ways = kept.slice(1).map(({ at }, i) => unit3(sub3(at, (kept[i] as { at: Vec3 }).at)));
  const normals = corners.map((_, i) => cross3(ways[i] as Vec3, ways[i + 1] as Vec3));
  return {
    ends: [first, last],
    legsMm: kept.slice(1).map(({ at }, i) => length3(sub3(at, (kept[i] as { at: Vec3 }).at))),
    corners: corners.map((corner, i) => ({
      ...corner,
      angleDeg: betweenDeg(ways[i] as Vec3, ways[i + 1] as Vec3),
      rotateDeg:
        i === 0 ? 0 : turnAboutDeg(normals[i - 1] as Vec3, normals[i] as Vec3, ways[i] as Vec3),
    })),
    straightOn: points.flatMap((_, i) => (kept.some(({ point }) => point === i) ? [] : [i])),
  };
}

/** A turn of less is none: over ten metres it comes to 2 mm, which nobody bends a tube for. */
export const STRAIGHT_ON_DEG = 0.01;

const turnAt = (points: readonly Vec3[], i: number): number => {
  const [before, at, after] = [points[i - 1], points[i], points[i + 1]];
  return before === undefined || at === undefined || after === undefined
    ? 0
    : betweenDeg(sub3(at, before), sub3(after, at));
};

/** The angle between two directions, exact for small and for blunt ones alike. */
const betweenDeg = (a: Vec3, b: Vec3): number => deg(Math.atan2(length3(cross3(a, b)), dot3(a, b)));

/** The turn from one normal of a direction to another, about that direction by the right hand. */
const turnAboutDeg = (from: Vec3, to: Vec3, about: Vec3): number => {
  const [a, b] = [unitOf(from), unitOf(to)];
  const turn = deg(Math.atan2(dot3(cross3(a, b), about), dot3(a, b)));
  if (Math.abs(turn) < NOISE_DEG) return 0;
  // Half a turn is the same either way, and rounding must not choose.
  return turn < NOISE_DEG - 180 ? 180 : turn;
};

const unitOf = (v: Vec3): Vec3 => {
  const length = length3(v);
  return length < NO_DIRECTION ? v : scale3(v, 1 / length);
};

const deg = (rad: number): number => (rad * 180) / Math.PI;
