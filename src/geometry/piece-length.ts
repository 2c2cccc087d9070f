import { loopExtents, type Extents } from './extents.ts';
import { perimeter } from './measure.ts';
import type { Piece } from './piece.ts';
import { distance } from './vec2.ts';

/** Length of a piece, mm. */
export const pieceLength = ({ from, to, bulge }: Piece): number =>
  bulge === 0
    ? distance(from, to)
    : perimeter([
        { x: from[0], y: from[1], bulge },
        { x: to[0], y: to[1], bulge: 0 },
      ]) - distance(from, to);

export const lengthOf = (pieces: readonly Piece[]): number =>
  pieces.reduce((sum, p) => sum + pieceLength(p), 0);

/**
 * The box round a piece. It is taken round the loop of the piece and the chord back, which adds
 * nothing to it.
 */
export const pieceBox = ({ from, to, bulge }: Piece): Extents =>
  bulge === 0
    ? {
        minX: Math.min(from[0], to[0]),
        minY: Math.min(from[1], to[1]),
        maxX: Math.max(from[0], to[0]),
        maxY: Math.max(from[1], to[1]),
      }
    : (loopExtents([
        { x: from[0], y: from[1], bulge },
        { x: to[0], y: to[1], bulge: 0 },
      ]) as Extents);

/** The box round any number of boxes; undefined when there are none. */
export const boxOfAll = (boxes: readonly Extents[]): Extents | undefined => {
  if (boxes.length === 0) return undefined;
  return boxes.reduce((a, b) => ({
    minX: Math.min(a.minX, b.minX),
    minY: Math.min(a.minY, b.minY),
    maxX: Math.max(a.maxX, b.maxX),
    maxY: Math.max(a.maxY, b.maxY),
  }));
};
