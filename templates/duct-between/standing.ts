import { along3, cross3, pieceOf, scale3, sub3, unit3 } from '../../src/template.ts';
import type { Standing, Vec3 } from '../../src/template.ts';
import type { Facet } from '../duct-transition/surface.ts';
import type { DuctEnd } from './ends.ts';
import type { DuctBetween } from './inputs.ts';
import type { Rim } from './rims.ts';
import { around } from './spans.ts';
import { directionOf } from './touch.ts';

/**
 * How far the corners of walls, cut square to their sheet, stand out of the plane of an end: the
 * most where they lean most, and on those a ring or a stub stands.
 */
const riseMm = (v: DuctBetween, { name, pose }: DuctEnd, ring: readonly Facet[]): number =>
  Math.max(
    0,
    ...ring
      .filter(({ edges }) => edges.includes(name === 'near' ? 'base' : 'rim'))
      .map(({ points }) => {
        const [a, b, c] = points as [Vec3, Vec3, Vec3];
        const normal = unit3(cross3(sub3(b, a), sub3(c, a)));
        const out = normal[0] * pose.z[0] + normal[1] * pose.z[1] + normal[2] * pose.z[2];
        return (v.thicknessMm / 2) * Math.abs(out);
      }),
  );

/** A flat piece on the end of the walls, drawn in the plane of the end as that is seen. */
export const endStanding = (v: DuctBetween, end: DuctEnd, ring: readonly Facet[]): Standing => {
  const rise = riseMm(v, end, ring);
  const { o, x, y, z } = end.pose;
  const out = end.name === 'near' ? -rise - v.thicknessMm : rise;
  return { poses: [{ o: along3(o, z, out), x, y, z }], turn: 2 };
};

/**
 * A strip rolled round an end, over as many flats as that has chords, its seam at the first corner
 * of the rim. Its own length goes round once.
 */
export const stubStanding = (
  v: DuctBetween,
  { end, flat, points }: Rim,
  ring: readonly Facet[],
): Standing => {
  const way = end.name === 'near' ? -1 : 1;
  const up = scale3(end.pose.z, way);
  const [from, next] = [points[0] as Vec3, points.at(way === 1 ? -1 : 1) as Vec3];
  const x = unit3(sub3(next, from));
  const inward = cross3(x, up);
  const [a, b] = [pieceOf(end.loop, 0).from, pieceOf(end.loop, 0).to];
  // A circle is drawn as two halves, the first from end to end of a diameter.
  const facing = flat.map(([u, w]) => directionOf([u - (a[0] + b[0]) / 2, w - (a[1] + b[1]) / 2]));
  const turns = facing.map((deg, i) => around((facing[(i + 1) % facing.length] as number) - deg));
  const start = along3(along3(from, x, v.cornerGapMm / 2), inward, -v.thicknessMm / 2);
  return {
    poses: [{ o: along3(start, up, riseMm(v, end, ring)), x, y: up, z: inward }],
    turn: 2,
    rolledOver: points.length,
    flatsDeg: way === 1 ? turns.toReversed() : turns,
  };
};
