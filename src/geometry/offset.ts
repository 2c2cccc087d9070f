import { arcOf, bulgeOf } from './arc.ts';
import type { Loop, Vertex } from './loop.ts';
import {
  crossings,
  endDirection,
  partBulge,
  type Piece,
  pieceOf,
  pointOn,
  startDirection,
} from './piece.ts';
import { selfCrossing } from './self-crossing.ts';
import { cross, distance, dot, type Vec2 } from './vec2.ts';
import { EXACT_MM } from './tolerance.ts';

/**
 * The curve beside a counter-clockwise loop: `outMm` outside it, or inside it when less than 0.
 * Lines stay lines, and arcs stay arcs. The curve goes round corners that point away from it in an
 * arc; at the other corners its pieces meet. `undefined` when a piece of the loop has no room there
 * (a slot narrower than twice the distance, a corner rounder than it), because what remains would
 * not be the same shape.
 */
export const offsetLoop = (loop: Loop, outMm: number): Loop | undefined => {
  if (outMm === 0) return loop;
  const shifted = loop.map((_, i) => shiftedPiece(pieceOf(loop, i), outMm));
  if (shifted.some((p) => p === undefined)) return undefined;
  const pieces = shifted as readonly Piece[];
  const joints = pieces.map((piece, i) =>
    jointOf(loop, i, pieces.at(i - 1) as Piece, piece, outMm),
  );
  const made: Vertex[] = [];
  for (const [i, piece] of pieces.entries()) {
    const [start, end] = [joints[i], joints[(i + 1) % joints.length]];
    if (start === undefined || end === undefined || end.before - start.after <= 0) return undefined;
    const [from, to] = [pointOn(piece, start.after), pointOn(piece, end.before)];
    if (distance(from, to) > EXACT_MM)
      made.push({
        x: from[0],
        y: from[1],
        bulge: isWhole(start, end) ? piece.bulge : partBulge(piece.bulge, start.after, end.before),
      });
    if (end.bulge !== 0) made.push({ x: to[0], y: to[1], bulge: end.bulge });
  }
  return selfCrossing(made) === undefined ? made : undefined;
};

const rightOf = ([x, y]: Vec2, by: number): Vec2 => [y * by, -x * by];

const shiftedPiece = (piece: Piece, outMm: number): Piece | undefined => {
  const [a, b] = [rightOf(startDirection(piece), outMm), rightOf(endDirection(piece), outMm)];
  if (
    piece.bulge !== 0 &&
    arcOf(piece.from, piece.to, piece.bulge).radius + Math.sign(piece.bulge) * outMm < EXACT_MM
  )
    return undefined;
  return {
    from: [piece.from[0] + a[0], piece.from[1] + a[1]],
    to: [piece.to[0] + b[0], piece.to[1] + b[1]],
    bulge: piece.bulge,
  };
};

/**
 * The shares at which the piece before ends and the piece after begins, and the bulge of the arc
 * between them.
 */
interface Joint {
  readonly before: number;
  readonly after: number;
  readonly bulge: number;
}

const jointOf = (
  loop: Loop,
  i: number,
  before: Piece,
  after: Piece,
  outMm: number,
): Joint | undefined => {
  if (distance(before.to, after.from) <= EXACT_MM) return { before: 1, after: 0, bulge: 0 };
  const [into, out] = [
    endDirection(pieceOf(loop, (i - 1 + loop.length) % loop.length)),
    startDirection(pieceOf(loop, i)),
  ];
  const turn = Math.atan2(cross(into, out), dot(into, out));
  if (turn * outMm > 0) return { before: 1, after: 0, bulge: bulgeOf(turn) };
  const [nearest] = crossings(before, after).toSorted((p, q) => 1 - p.a + p.b - (1 - q.a + q.b));
  return nearest === undefined ? undefined : { before: nearest.a, after: nearest.b, bulge: 0 };
};

const isWhole = (start: Joint, end: Joint): boolean => start.after === 0 && end.before === 1;
