import type { Loop } from '../../geometry/loop.ts';
import { pointGap } from '../../geometry/gap.ts';
import type { Piece } from '../../geometry/piece.ts';
import { cross, distance, dot, length, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import { keepsCircles } from './affine.ts';
import type { Conic, Primitive } from './primitive.ts';
import { conicPoint, type CurvePoint, splinePoint, splineSpans } from './spline.ts';
import { SAME_ANGLE_RAD, STRAIGHT_BULGE, wholeUp } from '../../geometry/tolerance.ts';

/** A stretch of a curve without corners, between two values of its parameter. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly at: (t: number) => CurvePoint;
}

/**
 * A stretch that was halved this often is shorter than a thousandth of itself; if it still does not
 * fit, it holds a corner or a cusp.
 */
const MOST_HALVINGS = 12;
/** The number of points of a stretch at which arcs are compared with it. */
const SAMPLES = 8;

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
        : stretchesOfConic(p).flatMap((s) => fitted(s, errorMm, MOST_HALVINGS));
    case 'spline': {
      if (p.degree === 1)
        return p.points.slice(1).map((to, i) => ({ from: p.points[i] as Vec2, to, bulge: 0 }));
      const stretches = splineSpans(p).map((i): Stretch => ({
        from: p.knots[i] as number,
        to: p.knots[i + 1] as number,
        at: (t) => splinePoint(p, i, t),
      }));
      return stretches.flatMap((s) => fitted(s, errorMm, MOST_HALVINGS));
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

const fitted = (s: Stretch, errorMm: number, halvings: number): Piece[] => {
  const pieces = twoArcs(s.at(s.from), s.at(s.to));
  if (isNear(pieces, s, errorMm)) return pieces.filter((p) => distance(p.from, p.to) > 0);
  if (halvings === 0) return [{ from: s.at(s.from).at, to: s.at(s.to).at, bulge: 0 }];
  const mid = (s.from + s.to) / 2;
  return [
    ...fitted({ ...s, to: mid }, errorMm, halvings - 1),
    ...fitted({ ...s, from: mid }, errorMm, halvings - 1),
  ];
};

const isNear = (pieces: readonly Piece[], s: Stretch, errorMm: number): boolean => {
  const loops = pieces.map(({ from, to, bulge }): Loop => [
    { x: from[0], y: from[1], bulge },
    { x: to[0], y: to[1], bulge: -bulge },
  ]);
  for (let k = 1; k < SAMPLES; k++) {
    const { at } = s.at(s.from + ((s.to - s.from) * k) / SAMPLES);
    // A part of the allowance is kept back, because between two of the points the curve may be a
    // little farther off.
    if (!(Math.min(...loops.map((loop) => pointGap(at, loop))) <= 0.8 * errorMm)) return false;
  }
  return true;
};

/**
 * Two arcs that leave one point and reach the other in given directions, meet in the same
 * direction, and have legs of the same length d: |v|^2 = 2 d v.(a + b) + 2 d^2 (1 - a.b) with v
 * from point to point and unit directions a and b (K. M. Bolton, "Biarc curves", 1975, cited from
 * memory).
 */
const twoArcs = (start: CurvePoint, end: CurvePoint): Piece[] => {
  const [a, b, v] = [unit(start.toward), unit(end.toward), sub(end.at, start.at)];
  const square = dot(v, v);
  const straight = [{ from: start.at, to: end.at, bulge: 0 }];
  if (square === 0 || length(a) === 0 || length(b) === 0) return straight;
  const [along, open] = [v[0] * (a[0] + b[0]) + v[1] * (a[1] + b[1]), 1 - dot(a, b)];
  const d = square / (along + Math.sqrt(along * along + 2 * open * square));
  if (!(d > 0) || d > 10 * Math.sqrt(square)) return straight;
  const meet: Vec2 = [
    (start.at[0] + end.at[0] + d * (a[0] - b[0])) / 2,
    (start.at[1] + end.at[1] + d * (a[1] - b[1])) / 2,
  ];
  return [
    { from: start.at, to: meet, bulge: bulgeBetween(a, sub(meet, start.at)) },
    { from: meet, to: end.at, bulge: bulgeBetween(sub(end.at, meet), b) },
  ].map(withoutFlatness);
};

/** An arc leaves its chord by half its sweep; the bulge is the tangent of a quarter of it. */
const bulgeBetween = (a: Vec2, b: Vec2): number => Math.tan(Math.atan2(cross(a, b), dot(a, b)) / 2);

const withoutFlatness = (p: Piece): Piece =>
  Math.abs(p.bulge) < STRAIGHT_BULGE ? { ...p, bulge: 0 } : p;
