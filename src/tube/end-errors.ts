import { cross3, dot3, length3, sub3, unit3, along3, type Vec3 } from '../geometry/vec3.ts';
import type { BendSheet } from './bend-sheet.ts';

/** How far bends may be off, each as one standard deviation or as a limit, as they are asked for. */
export interface BendErrors {
  readonly angleDeg: number;
  readonly rotateDeg: number;
  /** Place of a mark, mm. */
  readonly markMm: number;
}

/** What the errors of one bend move the far end of the tube by, mm. */
export interface EndShare {
  readonly angleMm: number;
  readonly rotateMm: number;
  readonly markMm: number;
}

export interface EndErrors {
  readonly shares: readonly EndShare[];
  /** All of them by chance: the root of the sum of squares, mm. */
  readonly likelyMm: number;
  /** The bend whose errors move the end most, counted from 0; `undefined` of a straight tube. */
  readonly worst: number | undefined;
}

/**
 * The errors of each bend carried to the far end of the tube, by derivatives:
 *
 * - an angle that is off turns all that follows about the end of the bend: the arc takes as much more
 *   tube as it grows longer by, so that its centre does not come into it;
 * - a rotation turns all that follows about the leg before the bend;
 * - a mark lengthens the leg before by what it takes of the leg behind.
 *
 * `points` are the ends and corners, `bends` those of its sheet.
 */
export function endErrors(
  points: readonly Vec3[],
  { bends }: Pick<BendSheet, 'bends'>,
  { angleDeg, rotateDeg, markMm }: BendErrors,
): EndErrors {
  const end = points.at(-1) as Vec3;
  const shares = bends.map(({ setbackMm }, i): EndShare => {
    const [before, corner, after] = [points[i], points[i + 1], points[i + 2]] as [Vec3, Vec3, Vec3];
    const [way, next] = [unit3(sub3(corner, before)), unit3(sub3(after, corner))];
    const normal = unit3(cross3(way, next));
    const bendEnd = along3(corner, next, setbackMm);
    const arm = sub3(end, bendEnd);
    const beside = sub3(end, corner);
    return {
      angleMm: rad(angleDeg) * length3(cross3(normal, arm)),
      // The first bend has no plane to be turned from: its rotation turns the whole tube.
      rotateMm: i === 0 ? 0 : rad(rotateDeg) * acrossMm(beside, way),
      markMm: markMm * length3(sub3(way, next)),
    };
  });
  const squares = shares.map((s) => s.angleMm ** 2 + s.rotateMm ** 2 + s.markMm ** 2);
  const worst = squares.reduce((best, s, i) => (s > (squares[best] ?? -1) ? i : best), 0);
  return {
    shares,
    likelyMm: Math.sqrt(squares.reduce((sum, s) => sum + s, 0)),
    worst: squares.length === 0 ? undefined : worst,
  };
}

const acrossMm = (v: Vec3, way: Vec3): number => length3(along3(v, way, -dot3(v, way)));

const rad = (deg: number): number => (deg * Math.PI) / 180;
