import { arcOf } from '../../geometry/arc.ts';
import type { Piece } from '../../geometry/piece.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import { type Affine, isMirror, keepsCircles, mapPoint, mapVector } from './affine.ts';
import { STRAIGHT_BULGE } from '../../geometry/tolerance.ts';

/** Part of an ellipse: centre + cos(t) u + sin(t) v, for t from `from` to `to`, radians. */
export interface Conic {
  readonly kind: 'conic';
  readonly centre: Vec2;
  readonly u: Vec2;
  readonly v: Vec2;
  readonly from: number;
  readonly to: number;
}

/**
 * A B-spline, rational where the weights differ. The number of its knots is the number of points
 * plus the degree plus one.
 */
export interface Spline {
  readonly kind: 'spline';
  readonly degree: number;
  readonly knots: readonly number[];
  readonly points: readonly Vec2[];
  readonly weights: readonly number[];
}

/** A line that an entity draws, before its curves are turned into arcs. */
export type Primitive = { readonly kind: 'piece'; readonly piece: Piece } | Conic | Spline;

/** The same line, moved. A circle that is stretched becomes an ellipse. */
export const mapped = (m: Affine, p: Primitive): Primitive => {
  switch (p.kind) {
    case 'piece':
      return mappedPiece(m, p.piece);
    case 'conic':
      return { ...p, centre: mapPoint(m, p.centre), u: mapVector(m, p.u), v: mapVector(m, p.v) };
    case 'spline':
      return { ...p, points: p.points.map((point) => mapPoint(m, point)) };
  }
};

const mappedPiece = (m: Affine, { from, to, bulge }: Piece): Primitive => {
  const isFlat = Math.abs(bulge) < STRAIGHT_BULGE;
  if (isFlat || keepsCircles(m))
    return {
      kind: 'piece',
      piece: {
        from: mapPoint(m, from),
        to: mapPoint(m, to),
        bulge: isFlat ? 0 : isMirror(m) ? -bulge : bulge,
      },
    };
  const { centre, radius, startRad, sweepRad } = arcOf(from, to, bulge);
  return mapped(m, {
    kind: 'conic',
    centre,
    u: [radius, 0],
    v: [0, radius],
    from: startRad,
    to: startRad + sweepRad,
  });
};
