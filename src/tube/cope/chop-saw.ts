import { cosDeg } from '../../geometry/degrees.ts';
import { type Cope, placesRound } from './cope.ts';
import { insideRadius } from './cut-back.ts';

/** Two straight cuts that meet in a ridge across the tube, in place of a curve. */
export interface ChopSawCuts {
  /** How far the cut on the acute side, and on the obtuse one, leans from square to the tube. */
  readonly acuteDeg: number;
  readonly obtuseDeg: number;
  /** Along the axis from the node to where both cuts meet: the bottom of the notch. */
  readonly ridgeMm: number;
  /** How far they stand off at most where the curve would touch, along the tube. */
  readonly openMm: number;
}

/** Places round a tube at which the cuts are held to its curve. */
const PLACES = 360;

/**
 * The flattest pair of cuts of a chop saw that clear the whole wall: both go through the lowest place
 * of the curve at 90 degrees to the acute side, and each leans as far as the place asks for at which
 * the inside of the wall would bite. A cut across the wall is lowest on its inside. Nothing for a tube
 * beside its header's middle, whose ridge would lie aslant.
 */
export const chopSawCuts = ({ tube, seat, fitMm }: Cope): ChopSawCuts | undefined => {
  if (seat.kind !== 'header' || seat.offsetMm !== 0 || seat.beside !== undefined) return undefined;
  const [inside, outside] = [insideRadius(tube), tube.diameterMm / 2];
  const ridgeMm = fitMm(90);
  const places = placesRound(PLACES).filter((deg) => deg % 180 !== 90);
  const slopeOn = (side: 1 | -1): number =>
    Math.max(
      ...places
        .filter((deg) => side * cosDeg(deg) > 0)
        .map((deg) => (fitMm(deg) - ridgeMm) / (inside * Math.abs(cosDeg(deg)))),
    );
  const [acute, obtuse] = [slopeOn(1), slopeOn(-1)];
  const openMm = Math.max(
    ...places.map((deg) => {
      const across = outside * cosDeg(deg);
      return ridgeMm + (across > 0 ? acute * across : -obtuse * across) - fitMm(deg);
    }),
  );
  const degOf = (slope: number): number => (Math.atan(slope) * 180) / Math.PI;
  return { acuteDeg: degOf(acute), obtuseDeg: degOf(obtuse), ridgeMm, openMm };
};
