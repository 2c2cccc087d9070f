import type { Extents } from '../../geometry/extents.ts';
import type { Piece } from '../../geometry/piece.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Curve, Stroke } from '../../model/picture.ts';

/** A straight line of a picture. */
export const line = (from: Vec2, to: Vec2, stroke: Stroke): Curve => ({
  kind: 'curve',
  pieces: [{ from, to, bulge: 0 }],
  stroke,
});

/** Straight pieces from point to point and back to the first. */
export const ring = (points: readonly Vec2[]): Piece[] =>
  points.map((from, i) => ({ from, to: points[(i + 1) % points.length] as Vec2, bulge: 0 }));

export const boxRing = ({ minX, minY, maxX, maxY }: Extents): Piece[] =>
  ring([
    [minX, minY],
    [maxX, minY],
    [maxX, maxY],
    [minX, maxY],
  ]);
