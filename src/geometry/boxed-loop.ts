import { type Arc, arcOf } from './arc.ts';
import { BoxGrid, FEW_BOXES } from './box-grid.ts';
import { type Extents, jointExtents } from './extents.ts';
import type { Loop } from './loop.ts';
import { type Piece, pieceOf } from './piece.ts';
import type { Vec2 } from './vec2.ts';

/** A piece of a loop with what is asked of it again and again. */
export interface BoxedPiece extends Piece {
  /** Absent on a straight piece. */
  readonly arc: Arc | undefined;
  /** A box round all of the piece, not always tight. */
  readonly box: Extents;
}

/** A loop's pieces in order, and which of them are near a place. */
export interface BoxedLoop {
  readonly pieces: readonly BoxedPiece[];
  /** A box round all of them; undefined for a loop without vertices. */
  readonly box: Extents | undefined;
  /** The pieces that may come within a distance of a box, mm, in their order. */
  readonly near: (box: Extents | undefined, withinMm: number) => readonly BoxedPiece[];
  /** The same by their numbers. */
  readonly numbersNear: (box: Extents, withinMm: number) => readonly number[];
}

/** Loops never change, and one outline is measured against many holes. */
const known = new WeakMap<Loop, BoxedLoop>();

export const boxedLoop = (loop: Loop): BoxedLoop => {
  const before = known.get(loop);
  if (before !== undefined) return before;
  const made = boxed(loop);
  known.set(loop, made);
  return made;
};

const boxed = (loop: Loop): BoxedLoop => {
  const pieces = loop.map((_, i): BoxedPiece => {
    const { from, to, bulge } = pieceOf(loop, i);
    const arc = bulge === 0 ? undefined : arcOf(from, to, bulge);
    return { from, to, bulge, arc, box: boxOf(from, to, arc) };
  });
  const boxes = pieces.map(({ box }) => box);
  const grid = new BoxGrid(boxes);
  return {
    pieces,
    box: jointExtents(boxes),
    near: (box, withinMm) =>
      pieces.length <= FEW_BOXES || box === undefined || withinMm === Infinity
        ? pieces
        : grid.near(box, withinMm).map((i) => pieces[i] as BoxedPiece),
    numbersNear: (box, withinMm) => grid.near(box, withinMm),
  };
};

const boxOf = (from: Vec2, to: Vec2, arc: Arc | undefined): Extents => {
  if (arc === undefined) return boxOfTwo(from, to);
  const {
    centre: [x, y],
    radius: r,
  } = arc;
  return { minX: x - r, minY: y - r, maxX: x + r, maxY: y + r };
};

/** The box of the line between two points. */
export const boxOfTwo = (from: Vec2, to: Vec2): Extents => ({
  minX: Math.min(from[0], to[0]),
  minY: Math.min(from[1], to[1]),
  maxX: Math.max(from[0], to[0]),
  maxY: Math.max(from[1], to[1]),
});
