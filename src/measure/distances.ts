import { arcOf } from '../geometry/arc.ts';
import { spot } from '../geometry/box-grid.ts';
import { boxedLoop } from '../geometry/boxed-loop.ts';
import type { Loop } from '../geometry/loop.ts';
import { type Piece, pieceOf, pointOn } from '../geometry/piece.ts';
import type { Vec2 } from '../geometry/vec2.ts';

/** Distance of a point from a piece. */
export const distanceFromPiece = (p: Vec2, { from, to, bulge }: Piece): number => {
  if (bulge !== 0) return fromArc(p, { from, to, bulge });
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const t = Math.min(
    1,
    Math.max(0, ((p[0] - from[0]) * dx + (p[1] - from[1]) * dy) / (dx * dx + dy * dy || 1)),
  );
  return Math.hypot(p[0] - from[0] - t * dx, p[1] - from[1] - t * dy);
};

const fromArc = (p: Vec2, piece: Piece): number => {
  const { centre, radius, startRad, sweepRad } = arcOf(piece.from, piece.to, piece.bulge);
  const turn = Math.sign(sweepRad) * (Math.atan2(p[1] - centre[1], p[0] - centre[0]) - startRad);
  const ends = Math.min(
    Math.hypot(p[0] - piece.from[0], p[1] - piece.from[1]),
    Math.hypot(p[0] - piece.to[0], p[1] - piece.to[1]),
  );
  const isOver = turn - 2 * Math.PI * Math.floor(turn / (2 * Math.PI)) <= Math.abs(sweepRad);
  return isOver
    ? Math.min(ends, Math.abs(Math.hypot(p[0] - centre[0], p[1] - centre[1]) - radius))
    : ends;
};

/** Distance of a point from the nearest piece of a loop. */
export const distanceFromLoop = (p: Vec2, loop: Loop): number => distancesFrom(loop, 0)(p);

/**
 * Gives the distances of one point after another from a loop; a distance below `enough` may be any
 * such value. Each search begins where the last one ended, so points that come in order along the
 * loop are found at once.
 */
export const distancesFrom = (loop: Loop, enough: number): ((p: Vec2) => number) => {
  let start = 0;
  return (p) => {
    let best = Infinity;
    const first = start;
    for (let k = 0; k < loop.length && best > enough; k++) {
      const i = (first + k) % loop.length;
      const far = distanceFromPiece(p, pieceOf(loop, i));
      if (far >= best) continue;
      best = far;
      start = i;
    }
    return best;
  };
};

/**
 * The corners of a loop and the middles of its pieces; two loops that pass through each other's are
 * the same.
 */
export const markersOf = (loop: Loop): Vec2[] =>
  loop.flatMap((v, i): Vec2[] => {
    const piece = pieceOf(loop, i);
    return [[v.x, v.y], pointOn(piece, 0.5)];
  });

/**
 * The piece of a loop, straight or not as wanted, that lies nearest to a point and, if it is
 * straight, runs in the given direction.
 */
export const nearestPiece = (loop: Loop, at: Vec2, dir: Vec2 | undefined): Piece | undefined => {
  const { pieces, near } = boxedLoop(loop);
  const close = nearestOf(near(spot(at), CLOSE_MM), at, dir);
  return close !== undefined && close.far <= CLOSE_MM
    ? close.piece
    : nearestOf(pieces, at, dir)?.piece;
};

/** A piece that is found this near, mm, is looked for no farther. */
const CLOSE_MM = 1;

const nearestOf = (
  pieces: readonly Piece[],
  at: Vec2,
  dir: Vec2 | undefined,
): { readonly piece: Piece; readonly far: number } | undefined => {
  let best: { readonly piece: Piece; readonly far: number } | undefined;
  for (const piece of pieces) {
    if ((piece.bulge === 0) !== (dir !== undefined)) continue;
    const far = distanceFromPiece(at, piece) + (dir === undefined ? 0 : leaning(piece, dir));
    if (best === undefined || far < best.far) best = { piece, far };
  }
  return best;
};

/** How far a piece of its length leans out of a direction, up to some millimetres. */
const leaning = ({ from, to }: Piece, dir: Vec2): number => {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  return (10 * Math.abs(dx * dir[1] - dy * dir[0])) / (Math.hypot(dx, dy) || 1);
};
