import { cross, type Vec2 } from '../geometry/vec2.ts';
import { cross3, dot3, length3, sub3, unit3, type Vec3 } from '../geometry/vec3.ts';
import { cosDeg, sinDeg } from '../geometry/degrees.ts';

/**
 * An oblique cone on the middle of its sheet, frustum of which a wall is rolled: it stands on a
 * circle round the origin at z = 0, its apex over x = `offsetMm`. A right cone has no offset.
 */
export interface ObliqueCone {
  readonly radiusMm: number;
  readonly heightMm: number;
  readonly offsetMm: number;
}

/** A cone through two circles whose axes lie `offsetMm` apart; mm. */
export const coneThrough = (
  largeRadiusMm: number,
  smallRadiusMm: number,
  heightMm: number,
  offsetMm: number,
): ObliqueCone => {
  const times = largeRadiusMm / (largeRadiusMm - smallRadiusMm);
  return { radiusMm: largeRadiusMm, heightMm: heightMm * times, offsetMm: offsetMm * times };
};

/** The point of the circle that it stands on. */
const foot = ({ radiusMm }: ObliqueCone, deg: number): Vec3 => [
  radiusMm * cosDeg(deg),
  radiusMm * sinDeg(deg),
  0,
];

const fromApex = (cone: ObliqueCone, deg: number): Vec3 =>
  sub3(foot(cone, deg), [cone.offsetMm, 0, cone.heightMm]);

/** True length of the line of the cone at an angle round it, from the apex to the circle. */
export const lineMm = (cone: ObliqueCone, deg: number): number => length3(fromApex(cone, deg));

/**
 * How fast the development turns about the apex, radians in the flat for each round the circle: the
 * part of the circle's own motion that is square to the line, over the length of the line
 * (differential geometry of a cone: the flat angle is the angle between neighbouring lines).
 */
const flatPerRound = (cone: ObliqueCone, deg: number): number => {
  const line = fromApex(cone, deg);
  const along: Vec3 = [-cone.radiusMm * sinDeg(deg), cone.radiusMm * cosDeg(deg), 0];
  return length3(cross3(along, line)) / dot3(line, line);
};

/** Nodes and weights of Gauss and Legendre for five points on -1 to 1 (tables; exact to degree 9). */
const GAUSS: readonly (readonly [node: number, weight: number])[] = [
  [0, 0.5688888888888889],
  [0.5384693101056831, 0.47862867049936647],
  [-0.5384693101056831, 0.47862867049936647],
  [0.906179845938664, 0.23692688505618908],
  [-0.906179845938664, 0.23692688505618908],
];

/** Stretches over which is summed, degrees; with five points on each nothing is left to gain. */
const STRETCH_DEG = 2;

/** Angle in the flat between two lines of the cone, degrees; exact to the figures of a computer. */
export const flatDeg = (cone: ObliqueCone, from: number, to: number): number => {
  if (cone.offsetMm === 0)
    return ((to - from) * cone.radiusMm) / Math.hypot(cone.radiusMm, cone.heightMm);
  const count = Math.max(1, Math.ceil(Math.abs(to - from) / STRETCH_DEG));
  const half = (to - from) / count / 2;
  let sum = 0;
  for (let i = 0; i < count; i++) {
    const middle = from + (2 * i + 1) * half;
    for (const [node, weight] of GAUSS) sum += weight * flatPerRound(cone, middle + node * half);
  }
  return sum * half;
};

/** The same from one line on, which keeps its sums: each next line is a stretch or less away from one. */
const flatDegFrom = (cone: ObliqueCone, from: number): ((to: number) => number) => {
  const sums = [0];
  return (to) => {
    if (to < from || cone.offsetMm === 0) return flatDeg(cone, from, to);
    const count = Math.floor((to - from) / STRETCH_DEG);
    const lineAt = (i: number): number => from + i * STRETCH_DEG;
    for (let i = sums.length; i <= count; i++)
      sums.push((sums[i - 1] as number) + flatDeg(cone, lineAt(i - 1), lineAt(i)));
    return (sums[count] as number) + flatDeg(cone, lineAt(count), to);
  };
};

/** Unit normal of the cone along one of its lines. */
const normalAt = (cone: ObliqueCone, deg: number): Vec3 =>
  unit3(cross3([-sinDeg(deg), cosDeg(deg), 0], fromApex(cone, deg)));

/** How much the wall turns between two of its lines, degrees: the angle between its normals. */
export const wallTurnDeg = (cone: ObliqueCone, from: number, to: number): number => {
  const [m, n] = [normalAt(cone, from), normalAt(cone, to)];
  return (
    (2 * Math.atan2(length3(sub3(m, n)), length3(sub3(m, [-n[0], -n[1], -n[2]]))) * 180) / Math.PI
  );
};

/** A development about an apex at the origin; its middle line points down the drawing. */
export interface FlatCone {
  /** A point of it: of the line at an angle round, a share of its length from the apex. */
  readonly at: (deg: number, share: number) => Vec2;
  /** Direction of the line at an angle round, from the apex, as a unit vector. */
  readonly way: (deg: number) => Vec2;
  /** Angle in the flat between its ends. */
  readonly wholeDeg: number;
}

/** A cone laid flat from one line to another, counter-clockwise as it is gone round. */
export const flatCone = (cone: ObliqueCone, from: number, to: number): FlatCone => {
  const turned = flatDegFrom(cone, from);
  const wholeDeg = turned(to);
  const known = new Map<number, Vec2>();
  const way = (deg: number): Vec2 => {
    const found = known.get(deg) ?? direction(turned(deg) - wholeDeg / 2 - 90);
    known.set(deg, found);
    return found;
  };
  return {
    wholeDeg,
    way,
    at: (deg, share) => {
      const [[x, y], long] = [way(deg), share * lineMm(cone, deg)];
      return [x * long, y * long];
    },
  };
};

const direction = (deg: number): Vec2 => [cosDeg(deg), sinDeg(deg)];

/**
 * The angle round at which a curve of the development lies `asideMm` beside the line at `deg`,
 * counter-clockwise of it; found by halving within 60 degrees.
 */
export const besideLine = (
  { at, way }: FlatCone,
  deg: number,
  share: number,
  asideMm: number,
): number => {
  if (asideMm === 0) return deg;
  const line = way(deg);
  const wanted = Math.abs(asideMm);
  const sign = Math.sign(asideMm);
  let [low, high] = [0, MOST_ASIDE_DEG];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (sign * cross(line, at(deg + sign * middle, share)) < wanted) low = middle;
    else high = middle;
  }
  return deg + sign * high;
};

/** No seam gives up more of a cone than this on either side. */
const MOST_ASIDE_DEG = 60;
