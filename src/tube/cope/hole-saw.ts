import { cosDeg, sinDeg } from '../../geometry/degrees.ts';
import { spanOf } from './cope.ts';
import { surfaceCutBack, type Tube } from './cut-back.ts';
import { bodiesOf, type HeaderSeat } from './seat.ts';

/** How a hole saw of the header's diameter cuts a cope. */
export interface HoleSawCut {
  /** The saw's outside diameter: that of the header. */
  readonly sawMm: number;
  /** How far the branch is turned from square to the saw's arbor. */
  readonly turnedDeg: number;
  /** How far the arbor passes beside the branch's axis. */
  readonly besideMm: number;
  /** How far the saw travels through the branch, along its arbor, mm. */
  readonly travelMm: number;
  /** Whether an ordinary saw is deep enough for that. */
  readonly isInOne: boolean;
}

/**
 * The depth that an ordinary bi-metal hole saw cuts, mm: 1 1/2 in. (common practice, from memory).
 * A branch that takes more is cut from both sides, or with a deep saw.
 */
export const HOLE_SAW_DEPTH_MM = 38;

/**
 * A hole saw is a cylinder as the header is one: at the header's angle and offset it cuts the cope
 * over the whole wall at once. Nothing where another branch is in the way too, since one saw leaves
 * one cylinder.
 */
export const holeSawCut = (tube: Tube, seat: HeaderSeat): HoleSawCut | undefined => {
  if (seat.beside !== undefined) return undefined;
  const bodies = bodiesOf(seat);
  const r = tube.diameterMm / 2;
  // The saw enters and leaves the branch where its outside meets the saw's cylinder.
  const { leastMm, mostMm } = spanOf(
    (deg) =>
      (surfaceCutBack(bodies, r, deg) ?? NaN) * cosDeg(seat.angleDeg) +
      r * cosDeg(deg) * sinDeg(seat.angleDeg),
  );
  const travelMm = mostMm - leastMm;
  return {
    sawMm: seat.diameterMm,
    turnedDeg: 90 - seat.angleDeg,
    besideMm: Math.abs(seat.offsetMm),
    travelMm,
    isInOne: travelMm <= HOLE_SAW_DEPTH_MM,
  };
};
