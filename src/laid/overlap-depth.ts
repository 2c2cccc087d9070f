import { type Extents, loopExtents } from '../geometry/extents.ts';
import { pointGap } from '../geometry/gap.ts';
import { isInside } from '../geometry/inside.ts';
import type { Loop } from '../geometry/loop.ts';
import { crossings, piecesOf, pointOn } from '../geometry/piece.ts';
import type { Vec2 } from '../geometry/vec2.ts';

/** Metal inside an outline and outside its holes. */
export interface Metal {
  readonly outline: Loop;
  readonly holes: readonly Loop[];
}

const loopsOf = ({ outline, holes }: Metal): readonly Loop[] => [outline, ...holes];

/** How far a point is from the nearest edge: more than 0 in the metal, less than 0 outside. */
export const depthInMetal = (metal: Metal, p: Vec2): number => {
  const isIn = isInside(metal.outline, p) && !metal.holes.some((hole) => isInside(hole, p));
  const gap = Math.min(...loopsOf(metal).map((loop) => pointGap(p, loop)));
  return isIn ? gap : -gap;
};

/**
 * Points on the edges of some metal between the places where they cross other edges, one in each
 * stretch, and the corners. A stretch lies within or without the other metal as a whole.
 */
export const edgePoints = (metal: Metal, other: Metal): Vec2[] => {
  const others = loopsOf(other).flatMap(piecesOf);
  return loopsOf(metal)
    .flatMap(piecesOf)
    .flatMap((piece) => {
      const shares = [0, 1, ...others.flatMap((o) => crossings(piece, o).map(({ a }) => a))];
      const sorted = shares.toSorted((a, b) => a - b);
      const middles = sorted.slice(1).map((share, i) => (share + (sorted[i] as number)) / 2);
      return [0, ...middles].map((share) => pointOn(piece, share));
    });
};

/** Points of the grid that tells whether two outlines lie exactly upon each other. */
const GRID = 12;

const gridPoints = ({ outline }: Metal): Vec2[] => {
  const { minX, minY, maxX, maxY } = loopExtents(outline) as Extents;
  return Array.from({ length: GRID * GRID }, (_, k): Vec2 => {
    const [i, j] = [(k % GRID) + 0.5, Math.floor(k / GRID) + 0.5];
    return [minX + (i / GRID) * (maxX - minX), minY + (j / GRID) * (maxY - minY)];
  });
};

/**
 * How deep two pieces of metal are seen to lie in each other; 0 where they only touch, or keep
 * apart.
 */
export const overlapDepth = (a: Metal, b: Metal): number =>
  Math.max(
    0,
    ...edgePoints(a, b).map((p) => depthInMetal(b, p)),
    ...edgePoints(b, a).map((p) => depthInMetal(a, p)),
    ...gridPoints(a).map((p) => {
      const own = depthInMetal(a, p);
      return own <= 0 ? 0 : Math.min(own, depthInMetal(b, p));
    }),
  );

/** How far a part is seen to stick out of the metal that it is cut from. */
export const stickingOut = (part: Metal, ground: Metal): number =>
  Math.max(
    0,
    ...edgePoints(part, ground).map((p) => -depthInMetal(ground, p)),
    ...ground.holes.flatMap((hole) =>
      edgePoints({ outline: hole, holes: [] }, part).map((p) => depthInMetal(part, p)),
    ),
  );
