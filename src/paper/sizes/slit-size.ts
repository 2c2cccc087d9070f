import { type Arc, arcOf } from '../../geometry/arc.ts';
import type { Loop } from '../../geometry/loop.ts';
import { type Piece, pieceOf } from '../../geometry/piece.ts';
import { SAME_LENGTH_MM } from '../../geometry/tolerance.ts';
import { distance } from '../../geometry/vec2.ts';

/** A slit whose ends are round holes wider than it, as louvres are lanced along, mm. */
export interface SlitSize {
  readonly widthMm: number;
  /** Between the middles of the holes. */
  readonly lengthMm: number;
  readonly holeMm: number;
}

/** The sizes of a loop of two straight sides between two equal holes; none of any other loop. */
export const slitSize = (loop: Loop): SlitSize | undefined => {
  const first = loop.findIndex(({ bulge }, i) => bulge !== 0 && loop.at(i - 1)?.bulge === 0);
  if (loop.length !== 6 || first < 0) return undefined;
  const pieces = loop.map((_, i) => pieceOf(loop, (first + i) % 6));
  if (pieces.some(({ bulge }, i) => (bulge === 0) !== (i % 3 === 2))) return undefined;
  const [a, b, side, c, d, back] = pieces as [Piece, Piece, Piece, Piece, Piece, Piece];
  const arcs = [a, b, c, d].map(({ from, to, bulge }) => arcOf(from, to, bulge));
  const [one, , other] = arcs as [Arc, Arc, Arc, Arc];
  const [widthMm, lengthMm] = [distance(a.from, b.to), distance(one.centre, other.centre)];
  const neckMm = Math.sqrt(Math.max(0, one.radius ** 2 - (widthMm / 2) ** 2));
  const straightMm = lengthMm - 2 * neckMm;
  const isSlit =
    arcs.every(({ radius }) => Math.abs(radius - one.radius) < SAME_LENGTH_MM) &&
    arcs.every(
      ({ centre }, i) => distance(centre, (i < 2 ? one : other).centre) < SAME_LENGTH_MM,
    ) &&
    [side, back].every(
      ({ from, to }) => Math.abs(distance(from, to) - straightMm) < SAME_LENGTH_MM,
    );
  return isSlit ? { widthMm, lengthMm, holeMm: 2 * one.radius } : undefined;
};
