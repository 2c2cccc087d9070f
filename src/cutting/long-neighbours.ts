import { loopExtents } from '../geometry/extents.ts';
import { pointGap } from '../geometry/gap.ts';
import type { Loop } from '../geometry/loop.ts';
import { piecesOf, pointOn } from '../geometry/piece.ts';
import { pieceLength } from '../geometry/piece-length.ts';
import type { Vec2 } from '../geometry/vec2.ts';

/**
 * Two edges nearer than this, mm, heat the same strip of metal: the zone that a plasma cut warms in
 * thin sheet is a few centimetres wide (from memory; there is no published figure).
 */
const NEAR_MM = 30;

/**
 * Over a shorter way side by side, mm, there is too little heat to move the sheet (from memory;
 * there is no published figure).
 */
const LONG_MM = 150;

/** From one point that is asked to the next along an edge, mm. */
const STEP_MM = 5;

/** Whether two pieces lie side by side over a long way, so that one warms what the other is cut from. */
export const areLongNeighbours = (a: Loop, b: Loop): boolean =>
  areNear(a, b) && Math.min(sideBySide(a, b), sideBySide(b, a)) >= LONG_MM;

const areNear = (a: Loop, b: Loop): boolean => {
  const [p, q] = [loopExtents(a), loopExtents(b)];
  return (
    p !== undefined &&
    q !== undefined &&
    p.minX < q.maxX + NEAR_MM &&
    q.minX < p.maxX + NEAR_MM &&
    p.minY < q.maxY + NEAR_MM &&
    q.minY < p.maxY + NEAR_MM
  );
};

/** How much of one edge runs near another, mm. */
const sideBySide = (edge: Loop, other: Loop): number =>
  piecesOf(edge).reduce((sum, piece) => {
    const long = pieceLength(piece);
    const count = Math.max(1, Math.ceil(long / STEP_MM));
    let near = 0;
    for (let i = 0; i < count; i++) {
      const at: Vec2 = pointOn(piece, (i + 0.5) / count);
      if (pointGap(at, other) <= NEAR_MM) near += 1;
    }
    return sum + (near / count) * long;
  }, 0);
