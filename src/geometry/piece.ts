import { arcOf, bulgeOf, pointAfterTurn, sweepOf } from './arc.ts';
import { edgesCalled, type Loop, vertexAt } from './loop.ts';
import { cross, distance, dot, leftOf, sub, unit, type Vec2 } from './vec2.ts';
import { NOISE_SHARE, SAME_ANGLE_RAD } from './tolerance.ts';

/** One piece of a loop on its own: a straight line (`bulge` 0) or an arc. */
export interface Piece {
  readonly from: Vec2;
  readonly to: Vec2;
  readonly bulge: number;
}

/** The i-th piece of a loop; the index may run past either end. */
export const pieceOf = (loop: Loop, i: number): Piece => {
  const [a, b] = [vertexAt(loop, i), vertexAt(loop, i + 1)];
  return { from: [a.x, a.y], to: [b.x, b.y], bulge: a.bulge };
};

/** All pieces of a loop, in order. */
export const piecesOf = (loop: Loop): Piece[] => loop.map((_, i) => pieceOf(loop, i));

/** The straight distance between the ends of the edge of that name, mm; 0 where there is none. */
export const lengthOfEdge = (loop: Loop, name: string): number => {
  const [i] = edgesCalled(loop, name);
  if (i === undefined) return 0;
  const { from, to } = pieceOf(loop, i);
  return distance(from, to);
};

/** The same piece walked the other way. */
export const backwards = (p: Piece): Piece => ({
  from: p.to,
  to: p.from,
  bulge: p.bulge === 0 ? 0 : -p.bulge,
});

/** The point at share `t` (0 to 1) of a piece's length. */
export const pointOn = (p: Piece, t: number): Vec2 => {
  if (t <= 0) return p.from;
  if (t >= 1) return p.to;
  if (p.bulge === 0)
    return [p.from[0] + t * (p.to[0] - p.from[0]), p.from[1] + t * (p.to[1] - p.from[1])];
  return pointAfterTurn(p.from, p.to, p.bulge, t * Math.abs(sweepOf(p.bulge)));
};

/**
 * The place of a point on a piece, as a share of the length; `undefined` when the point is farther
 * off the piece than `withinMm`.
 */
export const shareAt = (p: Piece, at: Vec2, withinMm: number): number | undefined => {
  if (distance(p.from, at) <= withinMm) return 0;
  if (distance(p.to, at) <= withinMm) return 1;
  const share = p.bulge === 0 ? alongLine(p, at) : alongArc(p, at);
  return share > 0 && share < 1 && distance(pointOn(p, share), at) <= withinMm ? share : undefined;
};

const alongLine = ({ from, to }: Piece, at: Vec2): number => {
  const chord = sub(to, from);
  return dot(sub(at, from), chord) / Math.max(dot(chord, chord), Number.MIN_VALUE);
};

const alongArc = ({ from, to, bulge }: Piece, at: Vec2): number => {
  const { centre, sweepRad } = arcOf(from, to, bulge);
  const [a, b] = [sub(from, centre), sub(at, centre)];
  const turn = Math.sign(sweepRad) * Math.atan2(cross(a, b), dot(a, b));
  return (turn < 0 ? turn + 2 * Math.PI : turn) / Math.abs(sweepRad);
};

/** Bulge of the stretch from share `t0` to share `t1` of a piece with this bulge. */
export const partBulge = (bulge: number, t0: number, t1: number): number =>
  bulge === 0 ? 0 : bulgeOf(sweepOf(bulge) * (t1 - t0));

/** Unit direction in which a piece leaves its start. */
export const startDirection = (p: Piece): Vec2 =>
  turned(unit(sub(p.to, p.from)), -sweepOf(p.bulge) / 2);

/** Unit direction in which a piece arrives at its end. */
export const endDirection = (p: Piece): Vec2 =>
  turned(unit(sub(p.to, p.from)), sweepOf(p.bulge) / 2);

const turned = (v: Vec2, rad: number): Vec2 => {
  if (rad === 0) return v;
  const left = leftOf(v);
  const [c, s] = [Math.cos(rad), Math.sin(rad)];
  return [v[0] * c + left[0] * s, v[1] * c + left[1] * s];
};

/**
 * Rising shares of the piece at which `normal . p = level`; the normal has length 1. A straight
 * piece that lies in the line gives none.
 */
export const levelCrossings = (p: Piece, normal: Vec2, level: number): number[] => {
  const near = normal[0] * p.from[0] + normal[1] * p.from[1] - level;
  const far = normal[0] * p.to[0] + normal[1] * p.to[1] - level;
  if (p.bulge === 0) {
    if (near === far) return [];
    const t = near / (near - far);
    return t >= -NOISE_SHARE && t <= 1 + NOISE_SHARE ? [Math.min(1, Math.max(0, t))] : [];
  }
  const arc = arcOf(p.from, p.to, p.bulge);
  const h = (level - normal[0] * arc.centre[0] - normal[1] * arc.centre[1]) / arc.radius;
  if (Math.abs(h) > 1 + NOISE_SHARE) return [];
  const lean = Math.atan2(normal[1], normal[0]);
  const half = Math.acos(Math.min(1, Math.max(-1, h)));
  return sharesOfAngles(
    arc.startRad,
    arc.sweepRad,
    half < SAME_ANGLE_RAD ? [lean] : [lean + half, lean - half],
  );
};

const FULL = 2 * Math.PI;

/** The shares of an arc that lie in the given directions from its centre. */
const sharesOfAngles = (
  startRad: number,
  sweepRad: number,
  angles: readonly number[],
): number[] => {
  const span = Math.abs(sweepRad);
  return angles
    .map((a) => {
      const turn = Math.sign(sweepRad) * (a - startRad);
      const wrapped = turn - FULL * Math.floor(turn / FULL);
      return wrapped > FULL - SAME_ANGLE_RAD ? 0 : wrapped;
    })
    .filter((w) => w <= span + SAME_ANGLE_RAD)
    .map((w) => Math.min(1, w / span))
    .sort((a, b) => a - b);
};

/**
 * A place where two pieces cross, as shares of both. Pieces that run along each other give none.
 */
export interface Crossing {
  readonly a: number;
  readonly b: number;
}

/** The places where two pieces meet, ends included. */
export const crossings = (a: Piece, b: Piece): Crossing[] => {
  const shared = sharedEnds(a, b);
  if (shared.length > 0)
    return shared.length === 1 ? [...shared, ...beyondEnd(a, b, shared[0] as Crossing)] : shared;
  if (a.bulge === 0) return lineCrossings(a, b);
  if (b.bulge === 0) return lineCrossings(b, a).map((c) => ({ a: c.b, b: c.a }));
  return arcCrossings(a, b);
};

/** Ends that two pieces have in common. */
const sharedEnds = (a: Piece, b: Piece): Crossing[] =>
  [0, 1].flatMap((i) =>
    [0, 1].flatMap((j) => {
      const [p, q] = [i === 0 ? a.from : a.to, j === 0 ? b.from : b.to];
      return p[0] === q[0] && p[1] === q[1] ? [{ a: i, b: j }] : [];
    }),
  );

/**
 * The other place where two pieces that share an end cross. Where two large arcs run into each other
 * smoothly their circles nearly touch, and rounding moves the place where they seem to cross along
 * them by the root of it, some tenths of a micron on a radius of metres; yet the end is known, and
 * the other crossing is its mirror image over the line between the centres. With directions a and b
 * and curvatures k and m there it lies off the end by 2 (a x b) w / w^2, w = k b - m a (plane
 * geometry; right for straight pieces too, whose curvature is 0).
 */
const beyondEnd = (a: Piece, b: Piece, end: Crossing): Crossing[] => {
  const [p, q] = [directionAt(a, end.a), directionAt(b, end.b)];
  const [k, m] = [curvatureOf(a), curvatureOf(b)];
  const w: Vec2 = [k * q[0] - m * p[0], k * q[1] - m * p[1]];
  const square = dot(w, w);
  const turn = cross(p, q);
  if (square === 0 || turn === 0) return [];
  const off: Vec2 = [(2 * turn * w[0]) / square, (2 * turn * w[1]) / square];
  const [onA, onB] = [shareOff(a, end.a, p, off), shareOff(b, end.b, q, off)];
  return onA === undefined || onB === undefined ? [] : [{ a: onA, b: onB }];
};

const directionAt = (p: Piece, end: number): Vec2 =>
  end === 0 ? startDirection(p) : endDirection(p);

/** Signed: of a piece that turns left it is positive. */
const curvatureOf = ({ from, to, bulge }: Piece): number =>
  (4 * bulge) / (distance(from, to) * (1 + bulge * bulge));

/** The share of a piece that lies off one of its ends, on the piece's own line or circle. */
const shareOff = (piece: Piece, end: number, direction: Vec2, off: Vec2): number | undefined => {
  if (piece.bulge === 0) {
    const share = end + dot(off, direction) / distance(piece.from, piece.to);
    return share >= 0 && share <= 1 ? share : undefined;
  }
  // A chord leaves the direction of its arc by half the turn.
  const turn = 2 * Math.atan2(cross(direction, off), dot(direction, off));
  const sweep = sweepOf(piece.bulge);
  return sharesOfAngles(0, sweep, [end * sweep + turn])[0];
};

/** Crossings of a straight piece with any other. */
const lineCrossings = (line: Piece, other: Piece): Crossing[] => {
  const dir = unit(sub(line.to, line.from));
  const total = distance(line.from, line.to);
  const normal = leftOf(dir);
  const found: Crossing[] = [];
  for (const t of levelCrossings(
    other,
    normal,
    normal[0] * line.from[0] + normal[1] * line.from[1],
  )) {
    const p = pointOn(other, t);
    const s = dot(sub(p, line.from), dir) / total;
    if (s >= -NOISE_SHARE && s <= 1 + NOISE_SHARE)
      found.push({ a: Math.min(1, Math.max(0, s)), b: t });
  }
  return found;
};

/**
 * Crossings of two arcs. The common chord of two circles is square to the line between their
 * centres.
 */
const arcCrossings = (a: Piece, b: Piece): Crossing[] => {
  const [p, q] = [arcOf(a.from, a.to, a.bulge), arcOf(b.from, b.to, b.bulge)];
  const between = sub(q.centre, p.centre);
  const d = Math.hypot(between[0], between[1]);
  if (d === 0) return [];
  const lean = Math.atan2(between[1], between[0]);
  const cosA = (d * d + p.radius * p.radius - q.radius * q.radius) / (2 * d * p.radius);
  const cosB = (d * d + q.radius * q.radius - p.radius * p.radius) / (2 * d * q.radius);
  if (Math.abs(cosA) > 1 || Math.abs(cosB) > 1) return [];
  const [halfA, halfB] = [Math.acos(cosA), Math.acos(cosB)];
  return [1, -1].flatMap((side) => {
    const onA = sharesOfAngles(p.startRad, p.sweepRad, [lean + side * halfA])[0];
    const onB = sharesOfAngles(q.startRad, q.sweepRad, [lean + Math.PI - side * halfB])[0];
    return onA === undefined || onB === undefined ? [] : [{ a: onA, b: onB }];
  });
};
