import { loopExtents } from './extents.ts';
import type { Loop } from './loop.ts';
import { crossings, type Piece, piecesOf, pointOn } from './piece.ts';
import { along, leftOf, scale, sub, unit, type Vec2 } from './vec2.ts';

/** What lies across from the middle of a piece of a loop. */
export interface Across {
  /** Index of the piece. */
  readonly piece: number;
  readonly at: Vec2;
  /**
   * Distance from there, square to the piece, to where the loop is met again, mm; Infinity where it
   * is not met again.
   */
  readonly widthMm: number;
}

/**
 * The distance from the middle of each piece straight across to where the loop is met again, on the
 * left of the way it runs (inside a counter-clockwise loop) or on its right. The least of these is
 * the width of a slot, however the slot lies and bends. A caller that needs only some of the pieces
 * says which.
 */
export function acrossLoop(
  loop: Loop,
  side: 'left' | 'right',
  minds: (piece: number) => boolean = () => true,
): readonly Across[] {
  const box = loopExtents(loop);
  if (box === undefined) return [];
  const reach = 2 * Math.hypot(box.maxX - box.minX, box.maxY - box.minY);
  const pieces = piecesOf(loop);
  return pieces.flatMap((own, piece) => {
    if (!minds(piece)) return [];
    const at = pointOn(own, 0.5);
    // An arc runs parallel to its chord at its middle.
    const left = leftOf(unit(sub(own.to, own.from)));
    const ray: Piece = {
      from: at,
      to: along(at, side === 'left' ? left : scale(left, -1), reach),
      bulge: 0,
    };
    const shares = pieces.flatMap((other) => crossings(ray, other).map((c) => c.a));
    return [
      {
        piece,
        at,
        widthMm: Math.min(
          ...shares.map((share) => share * reach).filter((width) => width > ITSELF_MM),
          Infinity,
        ),
      },
    ];
  });
}

/** Anything nearer than this is the piece itself. */
const ITSELF_MM = 1e-4;
