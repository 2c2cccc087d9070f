import { pointGap } from './gap.ts';
import type { Loop } from './loop.ts';
import type { Piece } from './piece.ts';
import { STRAIGHT_BULGE } from './tolerance.ts';
import { cross, distance, dot, length, sub, unit, type Vec2 } from './vec2.ts';

/** A point of a curve, and the direction in which the curve runs there, of any length. */
export interface CurvePoint {
  readonly at: Vec2;
  readonly toward: Vec2;
}

/** A stretch of a curve without corners, between two values of its parameter. */
export interface Stretch {
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
 * Straight pieces and arcs along a stretch, each end on it and no point farther from it than
 * `errorMm`. Two arcs that follow each other meet in the same direction.
 */
export const arcsAlong = (s: Stretch, errorMm: number): Piece[] =>
  fitted(s, errorMm, MOST_HALVINGS);

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
