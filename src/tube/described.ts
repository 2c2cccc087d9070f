import { cosDeg, sinDeg } from '../geometry/degrees.ts';
import { along3, cross3, dot3, mix3, unit3, type Vec3 } from '../geometry/vec3.ts';

/** A hoop: two legs and a bar across, bent twice in one plane. */
export interface HoopAsked {
  /** Between the middles of the two feet, mm. */
  readonly spanMm: number;
  /** From the feet to the top of the tube, outside, mm. */
  readonly heightMm: number;
  /** How far the legs lean towards each other, from upright. */
  readonly leanDeg: number;
  readonly diameterMm: number;
}

/**
 * Points of a hoop's centre line, from the foot on the left at the origin, z up. `undefined` where the
 * legs meet below the top, or the tube is higher than the hoop.
 */
export function hoopPoints({
  spanMm,
  heightMm,
  leanDeg,
  diameterMm,
}: HoopAsked): readonly Vec3[] | undefined {
  const rise = heightMm - diameterMm / 2;
  const inMm = (rise * sinDeg(leanDeg)) / cosDeg(leanDeg);
  if (rise <= 0 || spanMm - 2 * inMm <= 0) return undefined;
  return [
    [0, 0, 0],
    [inMm, 0, rise],
    [spanMm - inMm, 0, rise],
    [spanMm, 0, 0],
  ];
}

/** A leg behind a bend, by the bend before it. */
export interface TurnAndLeg {
  readonly angleDeg: number;
  /** From the plane of the bend before, as `TubeCorner` has it. */
  readonly rotateDeg: number;
  readonly legMm: number;
}

/**
 * Points of a centre line that is given by its legs, corner to corner: the first along x, the first
 * bend towards y.
 */
export function legPoints(firstMm: number, rest: readonly TurnAndLeg[]): readonly Vec3[] {
  let way: Vec3 = [1, 0, 0];
  let normal: Vec3 = [0, 0, 1];
  const points: Vec3[] = [
    [0, 0, 0],
    [firstMm, 0, 0],
  ];
  rest.forEach(({ angleDeg, rotateDeg, legMm }, i) => {
    if (i > 0) normal = mix3(normal, cosDeg(rotateDeg), cross3(way, normal), sinDeg(rotateDeg));
    way = unit3(mix3(way, cosDeg(angleDeg), cross3(normal, way), sinDeg(angleDeg)));
    // Kept square: over many bends the rounding of each would turn into an error of the next.
    normal = unit3(along3(normal, way, -dot3(normal, way)));
    points.push(along3(points.at(-1) as Vec3, way, legMm));
  });
  return points;
}

/**
 * How much tube an end needs beyond its point on a face that the tube does not meet squarely, so that
 * it can be trimmed to the face: (D / 2) tan a, with the angle a between the tube and the face's normal
 * (plane section of a cylinder).
 */
export const faceTrimMm = (diameterMm: number, fromNormalDeg: number): number =>
  (diameterMm / 2) * (sinDeg(fromNormalDeg) / cosDeg(fromNormalDeg));
