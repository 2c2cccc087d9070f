import {
  areaD,
  EndType,
  FillRule,
  inflatePathsD,
  intersectD,
  JoinType,
  type PathD,
} from 'clipper2-ts';
import type { Loop } from '../../src/geometry/loop.ts';
import { pieceOf, pointOn } from '../../src/geometry/piece.ts';

/** Chords per arc, enough to make a relief's area right to 0.001 mm2. */
const CHORDS = 400;

const toPath = (loop: Loop): PathD =>
  loop.flatMap((v, i) => {
    const piece = pieceOf(loop, i);
    const steps = v.bulge === 0 ? 1 : CHORDS;
    return Array.from({ length: steps }, (_, k) => {
      const [x, y] = pointOn(piece, k / steps);
      return { x, y };
    });
  });

/** Area common to two loops, by a general polygon library; it rounds to 6 decimals. */
export const commonArea = (a: Loop, b: Loop): number =>
  intersectD([toPath(a)], [toPath(b)], FillRule.NonZero, 6).reduce((sum, p) => sum + areaD(p), 0);

/**
 * Area inside the curve at a distance beside a loop, with round corners; it rounds to 6 decimals.
 */
export const inflatedArea = (loop: Loop, byMm: number): number =>
  inflatePathsD([toPath(loop)], byMm, JoinType.Round, EndType.Polygon, 2, 6, 1e-5).reduce(
    (sum, p) => sum + areaD(p),
    0,
  );
