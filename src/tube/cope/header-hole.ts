import { cosDeg, sinDeg } from '../../geometry/degrees.ts';
import { insideRadius, type Tube } from './cut-back.ts';
import type { HeaderSeat } from './seat.ts';

/** A point of the hole in a header, as it is marked on the header's outside. */
export interface HolePoint {
  /** Along the header from the node, towards the branch's acute side, mm. */
  readonly alongMm: number;
  /** Round the header from the line on which the branch stands without offset, degrees. */
  readonly roundDeg: number;
  /** The same along the outside of the header, mm. */
  readonly acrossMm: number;
}

/**
 * The hole that opens a header to the bore of a branch that sits on it: where the branch's inside
 * radius meets the header's outside. One point for each place round the branch that is asked for.
 */
export const headerHole = (
  tube: Tube,
  { diameterMm, angleDeg, offsetMm }: HeaderSeat,
  placesDeg: readonly number[],
): HolePoint[] => {
  const [r, big] = [insideRadius(tube), diameterMm / 2];
  return placesDeg.map((deg) => {
    const beside = offsetMm + r * sinDeg(deg);
    const height = Math.sqrt(big * big - beside * beside);
    // From z sin(b) - r cos(a) cos(b) = height, the distance z along the branch; then along the header.
    const z = (height + r * cosDeg(deg) * cosDeg(angleDeg)) / sinDeg(angleDeg);
    const round = Math.atan2(beside, height);
    return {
      alongMm: z * cosDeg(angleDeg) + r * cosDeg(deg) * sinDeg(angleDeg),
      roundDeg: (round * 180) / Math.PI,
      acrossMm: big * round,
    };
  });
};
