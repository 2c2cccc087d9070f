import { cosDeg } from '../../geometry/degrees.ts';
import { SAME_LENGTH_MM } from '../../geometry/tolerance.ts';
import type { Body } from './body.ts';
import { surfaceCutBack, type Tube } from './cut-back.ts';
import type { BendSeat, HeaderSeat, Seat } from './seat.ts';

/**
 * Why a tube cannot be coped as asked. Figures are what was given and what the least or the most
 * would be, in mm or degrees.
 */
export interface CopeFlaw {
  readonly kind:
    /** Diameter or wall are no tube's: a wall of more than half the diameter, nothing, or less. */
    | 'no-tube'
    /** The angle is not between `LEAST_ANGLE_DEG` and 90. */
    | 'angle'
    /** The branch reaches past the side of the header: its radius and its offset are too much. */
    | 'overhang'
    /** The centre line of the header's bend is no wider than the header is thick. */
    | 'tight-bend'
    /** The branch beside is thinner than this one, which would have to reach round it. */
    | 'thinner-beside'
    /** A branch beside, or the straight tube behind a bend, runs nearly along this one. */
    | 'alongside'
    /** Part of the branch runs past all that it should sit on. */
    | 'misses';
  readonly given: number;
  readonly limit: number;
}

/**
 * Flatter than this a cope is more than five times as long as its branch is thick, and no torch
 * gets into its acute side (common practice: from 30 degrees down it is gussetted instead).
 */
export const LEAST_ANGLE_DEG = 10;

const isAngle = (deg: number): boolean => deg >= LEAST_ANGLE_DEG && deg <= 90;

/** What is wrong with a tube on a seat, if anything is; `bodies` are those of the seat. */
export const copeFlaw = (tube: Tube, seat: Seat, bodies: readonly Body[]): CopeFlaw | undefined =>
  seatFlaw(tube, seat) ?? alongsideFlaw(bodies) ?? missFlaw(bodies, tube);

const seatFlaw = (tube: Tube, seat: Seat): CopeFlaw | undefined => {
  const most = tube.diameterMm / 2;
  if (!(tube.diameterMm > 0) || !(tube.wallMm > 0) || tube.wallMm > most)
    return { kind: 'no-tube', given: tube.wallMm, limit: most };
  if (!isAngle(seat.angleDeg))
    return { kind: 'angle', given: seat.angleDeg, limit: LEAST_ANGLE_DEG };
  if (seat.kind === 'plate' || seat.kind === 'mitre') return undefined;
  return seat.kind === 'header' ? headerFlaw(tube, seat) : bendFlaw(tube, seat);
};

const headerFlaw = (tube: Tube, seat: HeaderSeat): CopeFlaw | undefined => {
  const reach = tube.diameterMm / 2 + Math.abs(seat.offsetMm);
  if (!(reach <= seat.diameterMm / 2 + SAME_LENGTH_MM))
    return { kind: 'overhang', given: reach, limit: seat.diameterMm / 2 };
  const { beside } = seat;
  if (beside === undefined) return undefined;
  // A thicker tube would reach round the other as a fork does, in a curve with two steps.
  if (!(beside.diameterMm >= tube.diameterMm - SAME_LENGTH_MM))
    return { kind: 'thinner-beside', given: beside.diameterMm, limit: tube.diameterMm };
  return undefined;
};

const bendFlaw = (tube: Tube, seat: BendSeat): CopeFlaw | undefined => {
  const radius = seat.diameterMm / 2;
  if (!(seat.bendRadiusMm > radius))
    return { kind: 'tight-bend', given: seat.bendRadiusMm, limit: radius };
  return tube.diameterMm / 2 <= radius + SAME_LENGTH_MM
    ? undefined
    : { kind: 'overhang', given: tube.diameterMm / 2, limit: radius };
};

/** The angle to whatever grows out of the seat on the branch's side of it, where it is too flat. */
const alongsideFlaw = (bodies: readonly Body[]): CopeFlaw | undefined => {
  const flattest = Math.max(
    ...bodies.map((body) =>
      body.kind === 'tube' && body.isHalf === true ? body.direction[2] : -1,
    ),
  );
  return flattest <= cosDeg(LEAST_ANGLE_DEG)
    ? undefined
    : {
        kind: 'alongside',
        given: (Math.acos(Math.min(1, flattest)) * 180) / Math.PI,
        limit: LEAST_ANGLE_DEG,
      };
};

/** How closely a tube's outside is walked round to see whether it meets its seat everywhere. */
const STEP_DEG = 1;

/** Whether some generator of a tube's outside runs past all bodies, and which does. */
const missFlaw = (bodies: readonly Body[], tube: Tube): CopeFlaw | undefined => {
  for (let deg = 0; deg < 360; deg += STEP_DEG)
    if (surfaceCutBack(bodies, tube.diameterMm / 2, deg) === undefined)
      return { kind: 'misses', given: deg, limit: 0 };
  return undefined;
};
