import type { Arc } from './arc.ts';
import { boxedLoop, type BoxedPiece } from './boxed-loop.ts';
import type { Extents } from './extents.ts';
import type { Loop } from './loop.ts';
import { crossings, type Piece } from './piece.ts';
import { along, distance, dot, sub, unit, type Vec2 } from './vec2.ts';

/**
 * The shortest distance between two curves, mm; 0 when they meet. Neither counts as filled. A
 * caller that needs only gaps up to `within` gets `within` for all wider ones, and gets the answer
 * sooner.
 */
export function loopGap(a: Loop, b: Loop, within = Infinity): number {
  const [one, other] = [boxedLoop(a), boxedLoop(b)];
  let least = within;
  for (const p of one.near(other.box, within)) {
    for (const q of other.near(p.box, least)) {
      if (boxGap(p.box, q.box) < least) least = Math.min(least, pieceGap(p, q));
    }
  }
  return least;
}

/** The middle of the shortest way between two curves. */
export function gapMiddle(a: Loop, b: Loop): Vec2 {
  let [least, middle]: [number, Vec2] = [Infinity, [NaN, NaN]];
  const take = (from: Vec2, other: BoxedPiece): void => {
    const to = nearestOn(from, other);
    const gap = distance(from, to);
    if (gap < least) [least, middle] = [gap, along(from, sub(to, from), 0.5)];
  };
  for (const p of boxedLoop(a).pieces) {
    for (const q of boxedLoop(b).pieces) {
      for (const end of [p.from, p.to, ...squarePoints(p, q)]) take(end, q);
      for (const end of [q.from, q.to]) take(end, p);
    }
  }
  return middle;
}

/** The point of a piece that lies nearest to another point. */
const nearestOn = (point: Vec2, { from, to, arc }: BoxedPiece): Vec2 => {
  if (arc === undefined) return nearestOnLine(point, { from, to });
  if (sweepsOver(arc, point)) return along(arc.centre, unit(sub(point, arc.centre)), arc.radius);
  return distance(point, from) < distance(point, to) ? from : to;
};

/** The shortest distance from a point to a curve, mm. */
export const pointGap = (p: Vec2, loop: Loop): number =>
  boxedLoop(loop).pieces.reduce(
    (least, piece) => Math.min(least, pointToPiece(p, piece)),
    Infinity,
  );

/**
 * The shortest distance from a point to one piece of a curve, mm, for callers that ask about the
 * same curve many times.
 */
export const pieceGapsOf = (loop: Loop): ((p: Vec2, piece: number) => number) => {
  const all = boxedLoop(loop).pieces;
  return (p, i) => pointToPiece(p, all[i] as BoxedPiece);
};

const boxGap = (a: Extents, b: Extents): number =>
  Math.hypot(
    Math.max(0, a.minX - b.maxX, b.minX - a.maxX),
    Math.max(0, a.minY - b.maxY, b.minY - a.maxY),
  );

/** The shortest way starts or ends at an end of a piece, or is square to both pieces. */
function pieceGap(p: BoxedPiece, q: BoxedPiece): number {
  if (crossings(p, q).length > 0) return 0;
  const ends = [
    pointToPiece(p.from, q),
    pointToPiece(p.to, q),
    pointToPiece(q.from, p),
    pointToPiece(q.to, p),
  ];
  const square = squarePoints(p, q).map((point) => pointToPiece(point, q));
  return Math.min(...ends, ...square);
}

/** Points of `p` from which a straight line square to `p` may run square into `q`. */
function squarePoints(p: BoxedPiece, q: BoxedPiece): Vec2[] {
  if (p.arc === undefined) return q.arc === undefined ? [] : [nearestOnLine(q.arc.centre, p)];
  const { centre, radius } = p.arc;
  const arc = p.arc;
  const toward = unit(sub(q.arc === undefined ? nearestOnLine(centre, q) : q.arc.centre, centre));
  if (toward[0] === 0 && toward[1] === 0) return [];
  return [along(centre, toward, radius), along(centre, toward, -radius)].filter((point) =>
    sweepsOver(arc, point),
  );
}

function pointToPiece(point: Vec2, { from, to, arc }: BoxedPiece): number {
  if (arc === undefined) return distance(point, nearestOnLine(point, { from, to }));
  if (sweepsOver(arc, point)) return Math.abs(distance(point, arc.centre) - arc.radius);
  return Math.min(distance(point, from), distance(point, to));
}

function nearestOnLine(point: Vec2, { from, to }: Pick<Piece, 'from' | 'to'>): Vec2 {
  const chord = sub(to, from);
  const square = dot(chord, chord);
  if (square === 0) return from;
  const share = dot(sub(point, from), chord) / square;
  return along(from, chord, Math.min(1, Math.max(0, share)));
}

/** Whether the direction from the centre to the point lies within the arc. */
function sweepsOver(arc: Arc, point: Vec2): boolean {
  const full = 2 * Math.PI;
  const turn =
    Math.sign(arc.sweepRad) *
    (Math.atan2(point[1] - arc.centre[1], point[0] - arc.centre[0]) - arc.startRad);
  return turn - full * Math.floor(turn / full) <= Math.abs(arc.sweepRad);
}
