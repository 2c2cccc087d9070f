import { arcOf } from './arc.ts';
import type { Loop, Vertex } from './loop.ts';
import { offsetLoop } from './offset.ts';
import { endDirection, type Piece, piecesOf, startDirection } from './piece.ts';
import { selfCrossing } from './self-crossing.ts';
import { EXACT_MM, PARALLEL_SINE } from './tolerance.ts';
import { cross, distance, dot, sub, type Vec2 } from './vec2.ts';

/**
 * The outline of a sheet's middle or other face beside a counter-clockwise loop: `outMm` outside
 * it, or inside it when less than 0. Straight pieces meet at corners as before, on either side: a
 * sharp corner stays sharp, and a round that shrinks to nothing becomes a corner. `undefined` where
 * there is no room for that.
 */
export const mitredOffset = (loop: Loop, outMm: number): Loop | undefined => {
  if (outMm === 0) return loop;
  const pieces = piecesOf(loop)
    .map((piece) => shifted(piece, outMm))
    .filter((piece) => piece !== undefined);
  const n = pieces.length;
  const made: Vertex[] = [];
  for (const [i, piece] of pieces.entries()) {
    const before = pieces[(i + n - 1) % n] as Piece;
    const meeting = corner(before, piece);
    if (meeting === undefined) return offsetLoop(loop, outMm);
    made.push({ x: meeting[0], y: meeting[1], bulge: piece.bulge });
  }
  const isTurned = made.some((v, i) => {
    const [piece, next] = [pieces[i] as Piece, made[(i + 1) % n] as Vertex];
    return dot(sub([next.x, next.y], [v.x, v.y]), sub(piece.to, piece.from)) <= 0;
  });
  return isTurned || n < 2 || selfCrossing(made) !== undefined ? undefined : made;
};

/** The piece moved to its right, or nothing where an arc has no radius left. */
const shifted = (piece: Piece, outMm: number): Piece | undefined => {
  const { from, to, bulge } = piece;
  if (bulge !== 0) {
    const { radius } = arcOf(from, to, bulge);
    if (radius + Math.sign(bulge) * outMm < EXACT_MM) return undefined;
  }
  const [a, b] = [startDirection(piece), endDirection(piece)];
  return {
    from: [from[0] + a[1] * outMm, from[1] - a[0] * outMm],
    to: [to[0] + b[1] * outMm, to[1] - b[0] * outMm],
    bulge,
  };
};

/** Where a piece meets the next one; nothing where that takes more than two straight lines. */
const corner = (before: Piece, after: Piece): Vec2 | undefined => {
  if (distance(before.to, after.from) < EXACT_MM) return after.from;
  if (before.bulge !== 0 || after.bulge !== 0) return undefined;
  const [u, v] = [sub(before.to, before.from), sub(after.to, after.from)];
  const sine = cross(u, v);
  if (Math.abs(sine) < PARALLEL_SINE * Math.hypot(...u) * Math.hypot(...v)) return undefined;
  const share = cross(sub(after.from, before.from), v) / sine;
  return [before.from[0] + share * u[0], before.from[1] + share * u[1]];
};
