import { isInside } from '../../geometry/inside.ts';
import type { Loop } from '../../geometry/loop.ts';
import { along, leftOf, scale, sub, type Vec2 } from '../../geometry/vec2.ts';
import type { PictureItem } from '../../model/picture.ts';
import type { Datum, DatumLine } from '../sizes/datum.ts';
import type { Fitting } from './dimensioned-blank.ts';
import { type Ground, boxGround } from './ground.ts';
import { HOLE } from './line-types.ts';
import type { Candidate, Placer } from './placer.ts';
import { ring } from './strokes.ts';

/** Size of the triangle that stands on a datum edge (its form after ISO 5459, from memory), mm. */
const MARK_MM = 2.8;
/** Where along the edge it may stand, the likeliest first. */
const SHARES = [0.2, 0.35, 0.8, 0.65, 0.5, 0.1, 0.9, 0.04, 0.96];
/** So far on the inner side of an edge, mm of the blank, lies its metal. */
const INSIDE_MM = 0.2;
const RING_MM = 1.4;

interface MarkPlace extends Candidate {
  readonly corners: readonly Vec2[];
}

/**
 * What sizes are measured from: a black triangle on each datum edge, outside the metal or on it; a
 * ring at a point that a square goes through. `placer` keeps other things off them.
 */
export const datumMarks = (
  { x, y }: Datum,
  outline: Loop,
  fitting: Fitting,
  placer: Placer,
  isOnMetal = false,
): PictureItem[] => [x, y].flatMap((line) => markOf(line, outline, fitting, placer, isOnMetal));

const markOf = (
  { kind, at, ends, towards }: DatumLine,
  outline: Loop,
  fitting: Fitting,
  placer: Placer,
  isOnMetal: boolean,
): PictureItem[] => {
  if (ends === undefined)
    return kind === 'hole'
      ? []
      : [{ kind: 'round', centre: fitting.at(at), radiusMm: RING_MM, stroke: HOLE }];
  const [from, to] = ends;
  const out = isOnMetal ? towards : scale(towards, -1);
  const places = SHARES.flatMap((share, i): MarkPlace[] => {
    const foot = along(from, sub(to, from), share);
    if (!isInside(outline, along(foot, towards, INSIDE_MM))) return [];
    const corners = triangleOn(fitting.at(foot), out);
    return [{ corners, grounds: [groundOf(corners)], cost: i }];
  });
  const place = placer.place(places);
  return place === undefined ? [] : [{ kind: 'area', rims: [ring(place.corners)], fill: 0 }];
};

const triangleOn = (foot: Vec2, out: Vec2): Vec2[] => {
  const side = leftOf(out);
  const base = along(foot, out, MARK_MM);
  return [foot, along(base, side, -MARK_MM / 2), along(base, side, MARK_MM / 2)];
};

const groundOf = (corners: readonly Vec2[]): Ground => {
  const [xs, ys] = [corners.map((p) => p[0]), corners.map((p) => p[1])];
  return boxGround({
    minX: Math.min(...xs),
    minY: Math.min(...ys),
    maxX: Math.max(...xs),
    maxY: Math.max(...ys),
  });
};
