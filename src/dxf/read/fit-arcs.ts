import { arcsAlong, type CurvePoint, type Stretch } from '../../geometry/arcs-along.ts';
import type { Piece } from '../../geometry/piece.ts';
import { cross, type Vec2 } from '../../geometry/vec2.ts';
import { keepsCircles } from './affine.ts';
import type { Conic, Primitive } from './primitive.ts';
import { conicPoint, splinePoint, splineSpans } from './spline.ts';
import { SAME_ANGLE_RAD, wholeUp } from '../../geometry/tolerance.ts';

/**
 * A line as straight pieces and arcs, each end on the line and no point farther from it than
 * `errorMm`. Two arcs that follow each other along a curve meet in the same direction.
 */
export const piecesOf = (p: Primitive, errorMm: number): Piece[] => {
  switch (p.kind) {
    case 'piece':
      return [p.piece];
    case 'conic':
      return isRound(p)
        ? roundPieces(p)
        : stretchesOfConic(p).flatMap((s) => arcsAlong(s, errorMm));
    case 'spline': {
      if (p.degree === 1)
        return p.points.slice(1).map((to, i) => ({ from: p.points[i] as Vec2, to, bulge: 0 }));
      const stretches = splineSpans(p).map((i): Stretch => ({
        from: p.knots[i] as number,
        to: p.knots[i + 1] as number,
        at: (t) => splinePoint(p, i, t),
      }));
      return stretches.flatMap((s) => arcsAlong(s, errorMm));
    }
  }
};

export const isRound = ({ u, v }: Conic): boolean =>
  keepsCircles({ a: u[0], b: u[1], c: v[0], d: v[1], e: 0, f: 0 });

/** The pieces of a circle or its arc, each at most half a circle. */
const roundPieces = (conic: Conic): Piece[] => {
  const turn = conic.to - conic.from;
  const parts = Math.abs(turn) > Math.PI + SAME_ANGLE_RAD ? 2 : 1;
  const at = (k: number): Vec2 => conicPoint(conic, conic.from + (turn * k) / parts).at;
  const isFull = Math.abs(Math.abs(turn) - 2 * Math.PI) < SAME_ANGLE_RAD;
  const bulge = Math.sign(cross(conic.u, conic.v)) * Math.tan(turn / parts / 4);
  return Array.from({ length: parts }, (_, k) => ({
    from: at(k),
    to: isFull && k === 1 ? at(0) : at(k + 1),
    bulge,
  }));
};

/**
 * The stretches of an ellipse, each at most a quarter, so that none turns by much. A full ellipse
 * ends where it begins.
 */
const stretchesOfConic = (conic: Conic): Stretch[] => {
  const { from, to } = conic;
  const parts = Math.max(1, wholeUp(Math.abs(to - from) / (Math.PI / 2)));
  const isFull = Math.abs(Math.abs(to - from) - 2 * Math.PI) < SAME_ANGLE_RAD;
  const at = (t: number): CurvePoint => conicPoint(conic, isFull && t === to ? from : t);
  const edge = (k: number): number => (k === parts ? to : from + ((to - from) * k) / parts);
  return Array.from({ length: parts }, (_, k) => ({ from: edge(k), to: edge(k + 1), at }));
};
