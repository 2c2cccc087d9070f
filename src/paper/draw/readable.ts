import { NEARLY_PARALLEL_SINE, SAME_POINT_MM } from '../../geometry/tolerance.ts';
import { scale, type Vec2 } from '../../geometry/vec2.ts';

/** A unit direction, so turned that a text along it reads from below or from the right. */
export const readableWay = (way: Vec2): Vec2 =>
  way[0] < -NEARLY_PARALLEL_SINE || (Math.abs(way[0]) <= NEARLY_PARALLEL_SINE && way[1] < 0)
    ? scale(way, -1)
    : way;

/** A line, so directed that a text along it reads from below; from the right if it is upright. */
export const readableLine = ([a, b]: readonly [Vec2, Vec2]): readonly [Vec2, Vec2] => {
  const isUpright = Math.abs(b[0] - a[0]) < SAME_POINT_MM;
  return (isUpright ? b[1] < a[1] : b[0] < a[0]) ? [b, a] : [a, b];
};
