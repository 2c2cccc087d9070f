import { cross, sub, type Vec2 } from '../geometry/vec2.ts';
import { length } from '../forms/fields.ts';
import { checked, list, pair } from '../forms/sections.ts';
import type { Section } from '../model/machine.ts';
import { SAME_TURN_RAD } from '../geometry/tolerance.ts';

/** A point of a machine's cross-section. */
const point = pair<number>(
  length({ about: 'A figure of a point.', min: -5000, max: 5000 }),
  'a point [x, y], each from -5000 to 5000 mm',
);

/** One convex body of a cross-section; a hollow one is given as several. */
const polygon = checked<Section>(
  list('A convex polygon, its points in the order round it.', point, {
    what: 'points [x, y]',
    min: 3,
    max: 40,
  }),
  (points, disagree) => {
    if (!isConvex(points))
      disagree(
        [],
        'a convex polygon, its points in the order round it',
        'split a hollow shape into convex pieces that touch',
      );
  },
);

export const polygons = (about: string) =>
  list(about, polygon, { what: 'convex polygons', min: 1, max: 40 });

/** Whether the polygon turns one way at every point and goes round once. */
function isConvex(points: readonly Vec2[]): boolean {
  const sides = points.map((p, i): Vec2 => sub(points[(i + 1) % points.length] as Vec2, p));
  const turns = sides.map((side, i) => cross(side, sides[(i + 1) % sides.length] as Vec2));
  const way = Math.sign(turns[0] ?? 0);
  if (way === 0 || turns.some((turn) => Math.sign(turn) !== way)) return false;
  const turned = sides.map((side, i) => {
    const next = sides[(i + 1) % sides.length] as Vec2;
    return Math.atan2(cross(side, next), side[0] * next[0] + side[1] * next[1]);
  });
  return (
    Math.abs(Math.abs(turned.reduce((sum, turn) => sum + turn, 0)) - 2 * Math.PI) < SAME_TURN_RAD
  );
}
