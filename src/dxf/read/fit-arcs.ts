import { arcsAlong, type CurvePoint, type Stretch } from '../../geometry/arcs-along.ts';
import { circleThrough } from '../../geometry/circle-through.ts';
import type { Piece } from '../../geometry/piece.ts';
import { cross, distance, dot, sub, type Vec2 } from '../../geometry/vec2.ts';
import { keepsCircles } from './affine.ts';
import type { Conic, Primitive } from './primitive.ts';
import { conicPoint, splinePoint, splineSpans } from './spline.ts';
import { SAME_ANGLE_RAD, SAME_TURN_RAD, wholeUp } from '../../geometry/tolerance.ts';

/**
 * A line as straight pieces and arcs, each end on the line and no point farther from it than
 * `errorMm`. Two arcs that follow each other along a curve meet in the same direction.
 */
export const piecesOf = (p: Primitive, errorMm: number): Piece[] => {
  switch (p.kind) {
    case 'piece':
      return [p.piece];
    case 'conic':
      return isRound(p) ? roundPieces(p) : alongAll(stretchesOfConic(p), errorMm);
    case 'spline': {
      if (p.degree === 1)
        return p.points.slice(1).map((to, i) => ({ from: p.points[i] as Vec2, to, bulge: 0 }));
      const stretches = splineSpans(p).map((i): Stretch => ({
        from: p.knots[i] as number,
        to: p.knots[i + 1] as number,
        at: (t) => splinePoint(p, i, t),
      }));
      return alongAll(stretches, errorMm);
    }
  }
};

const alongAll = (stretches: readonly Stretch[], errorMm: number): Piece[] =>
  onOneCircle(stretches, errorMm) ?? stretches.flatMap((s) => arcsAlong(s, errorMm));

/** The number of points of a stretch that are looked at. */
const SAMPLES = 8;

/**
 * A curve of one or more stretches as an arc, or as two where it goes more than half round, if it is
 * an arc to within half of `errorMm`. Programs without arcs write them as curves, and pieces fitted
 * to these one by one would each have a radius of its own.
 */
const onOneCircle = (stretches: readonly Stretch[], errorMm: number): Piece[] | undefined => {
  const points = stretches.flatMap((s, i) =>
    Array.from(
      { length: i === stretches.length - 1 ? SAMPLES + 1 : SAMPLES },
      (_, k) => s.at(s.from + ((s.to - s.from) * k) / SAMPLES).at,
    ),
  );
  const share = (of: number): Vec2 => points[Math.round((points.length - 1) * of)] as Vec2;
  const circle = circleThrough(share(0), share(1 / 3), share(2 / 3));
  if (circle === undefined) return undefined;
  const { centre, radius } = circle;
  if (points.some((p) => Math.abs(distance(p, centre) - radius) > errorMm / 2)) return undefined;
  const side = circle.isLeft ? 1 : -1;
  const turns = points.slice(1).map((p, i): number => {
    const [a, b] = [sub(points[i] as Vec2, centre), sub(p, centre)];
    return side * Math.atan2(cross(a, b), dot(a, b));
  });
  const sweep = (from: number, to: number): number =>
    turns.slice(from, to).reduce((sum, turn) => sum + turn, 0);
  const end = turns.length;
  if (turns.some((turn) => turn < 0) || sweep(0, end) > 2 * Math.PI + SAME_TURN_RAD)
    return undefined;
  const arc = (from: number, to: number): Piece => ({
    from: points[from] as Vec2,
    to: points[to] as Vec2,
    bulge: side * Math.tan(sweep(from, to) / 4),
  });
  const middle = Math.round(end / 2);
  return sweep(0, end) > Math.PI ? [arc(0, middle), arc(middle, end)] : [arc(0, end)];
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
