import type { Pose } from '../geometry/pose.ts';
import type { Vec3 } from '../geometry/vec3.ts';
import { fourBytes } from './four-bytes.ts';

/** A rigid motion as glTF states it: a shift in metres, y up, and a unit quaternion x, y, z, w. */
export interface Trs {
  readonly translation: Vec3;
  readonly rotation: readonly [number, number, number, number];
}

/** The format's unit is the metre. */
export const METRES_PER_MM = 0.001;

/** Turns z up into y up, by a quarter turn about x. */
export const upright = ([x, y, z]: Vec3): Vec3 => [x, z, -y];

export const trsOf = (pose: Pose): Trs => {
  const [x, y, z, w] = quaternionOf(pose);
  const [i, j, k] = fourBytes(upright([x, y, z]));
  const [last] = fourBytes([w, 0, 0]);
  return { translation: fourBytes(upright(pose.o), METRES_PER_MM), rotation: [i, j, k, last] };
};

/**
 * The quaternion of a rotation, by the largest of its four parts (Shepperd, 'Quaternion from
 * rotation matrix', Journal of Guidance and Control 1, 1978): its square is a sum of the diagonal, and
 * the others follow from sums and differences of opposite elements.
 */
const quaternionOf = ({
  x: [a, d, g],
  y: [b, e, h],
  z: [c, f, k],
}: Pose): readonly [number, number, number, number] => {
  const fourSquares = [1 + a - e - k, 1 - a + e - k, 1 - a - e + k, 1 + a + e + k] as const;
  const most = Math.max(...fourSquares);
  const size = 2 * Math.sqrt(most);
  if (fourSquares[3] === most) return [(h - f) / size, (c - g) / size, (d - b) / size, size / 4];
  if (fourSquares[0] === most) return [size / 4, (b + d) / size, (c + g) / size, (h - f) / size];
  if (fourSquares[1] === most) return [(b + d) / size, size / 4, (f + h) / size, (c - g) / size];
  return [(c + g) / size, (f + h) / size, size / 4, (d - b) / size];
};

/** The same rotation, with the sign by which it is nearer to another. */
export const nearTo = (q: Trs['rotation'], other: Trs['rotation']): Trs['rotation'] =>
  q[0] * other[0] + q[1] * other[1] + q[2] * other[2] + q[3] * other[3] < 0
    ? [0 - q[0], 0 - q[1], 0 - q[2], 0 - q[3]]
    : q;
