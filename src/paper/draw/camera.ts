import { cosDeg, sinDeg } from '../../geometry/degrees.ts';
import { cross3, dot3, type Vec3 } from '../../geometry/vec3.ts';

/**
 * A parallel view: directions to the right and upwards in the picture, and towards whoever looks.
 */
export interface Camera {
  readonly right: Vec3;
  readonly up: Vec3;
  readonly toward: Vec3;
}

/**
 * Seen from a side, in degrees counter-clockwise from the x axis, and from above by `riseDeg`, less
 * than 90.
 */
export const cameraAt = (sideDeg: number, riseDeg: number): Camera => {
  const [c, s] = [cosDeg(riseDeg), sinDeg(riseDeg)];
  const toward: Vec3 = [c * cosDeg(sideDeg), c * sinDeg(sideDeg), s];
  const right: Vec3 = [-sinDeg(sideDeg), cosDeg(sideDeg), 0];
  return { right, up: cross3(toward, right), toward };
};

/** Right, up and nearness of a point. */
export const seen = ({ right, up, toward }: Camera, p: Vec3): Vec3 => [
  dot3(right, p),
  dot3(up, p),
  dot3(toward, p),
];
