import { cosDeg, tanDeg } from '../geometry/degrees.ts';
import { NOISE_MM, wholeDown, wholeUp } from '../geometry/tolerance.ts';

/**
 * A wide bend made as a row of slight ones: the flats between the hits touch the inside arc that was
 * asked for at their middles, and the corners stand off it, outwards. The first and the last flat
 * reach half a pitch into the bend zone from its tangent lines.
 */
export interface Bump {
  readonly hits: number;
  /** Bend angle of one hit, degrees. */
  readonly angleDeg: number;
  /** From hit to hit in the flat, mm. */
  readonly pitchMm: number;
  /** From a tangent line of the whole bend to the hit next to it, in the flat, mm. */
  readonly firstMm: number;
  /** How far a corner stands off the inside arc, mm: r (1 / cos(A / 2n) - 1). */
  readonly standOffMm: number;
}

/** A wide bend as it is to be made: lengths in mm, `allowanceMm` its length in the flat. */
export interface WideBend {
  readonly angleDeg: number;
  readonly insideRadiusMm: number;
  readonly allowanceMm: number;
  readonly thicknessMm: number;
}

/** How a bend is to be bumped: in so many hits, or with corners that stand off no more than so far. */
export interface BumpWish {
  readonly hits?: number | undefined;
  readonly standOffMm?: number | undefined;
}

/** How far a corner may stand off the arc where nobody says, mm (common practice). */
export const USUAL_STAND_OFF_MM = 0.2;

/** How far a bend is taken at a hit at most where nobody says, degrees (common practice). */
const USUAL_HIT_DEG = 5;

/** More than this at a hit leaves flats that are seen from afar, degrees (common practice). */
export const MOST_HIT_DEG = 10;

/** Lines of hits nearer to each other than this, in thicknesses, run into one another. */
const LEAST_PITCH = 1.5;

/** The most hits that anybody makes in one bend. */
export const MOST_HITS = 200;

/**
 * A bend of angle A and radius r in n hits: A / n and allowance / n each. Where the number is not
 * given it is the least whose corners stand off no more than asked, n >= A / (2 acos(r / (r + e)))
 * (plain geometry; worked out in tests/published/bump.json), and where nothing is asked also at
 * most 5 degrees a hit, but never more hits than have room beside each other.
 */
export const bumpOf = (bend: WideBend, { hits, standOffMm }: BumpWish = {}): Bump => {
  const { angleDeg, insideRadiusMm, allowanceMm, thicknessMm } = bend;
  const room = Math.max(1, wholeDown(allowanceMm / (LEAST_PITCH * thicknessMm)));
  const fine = hitsFor(bend, standOffMm ?? USUAL_STAND_OFF_MM);
  const wanted =
    standOffMm === undefined ? Math.max(fine, wholeUp(angleDeg / USUAL_HIT_DEG)) : fine;
  const n = hits ?? Math.min(wanted, room, MOST_HITS);
  const pitchMm = allowanceMm / n;
  return {
    hits: n,
    angleDeg: angleDeg / n,
    pitchMm,
    firstMm: pitchMm / 2,
    standOffMm: insideRadiusMm * (1 / cosDeg(angleDeg / n / 2) - 1),
  };
};

/** The same of a wall that is rolled all over, whose length in the flat lies on the middle of the sheet. */
export const wallBump = (wall: Omit<WideBend, 'allowanceMm'>): Bump => {
  const { angleDeg, insideRadiusMm, thicknessMm } = wall;
  const middleMm = insideRadiusMm + thicknessMm / 2;
  return bumpOf({ ...wall, allowanceMm: (middleMm * angleDeg * Math.PI) / 180 });
};

/** Whether hits so near to each other run into one another. */
export const isTooClose = ({ pitchMm }: Bump, thicknessMm: number): boolean =>
  pitchMm < LEAST_PITCH * thicknessMm - NOISE_MM;

const hitsFor = ({ angleDeg, insideRadiusMm: r }: WideBend, standOffMm: number): number => {
  const mostDeg = (2 * Math.acos(r / (r + standOffMm)) * 180) / Math.PI;
  return Math.max(1, wholeUp(angleDeg / mostDeg));
};

/**
 * How much more of the neutral line the flats take, touching the arc, than the arc itself does, mm:
 * (r - rho) (2 n tan(A / 2n) - A) with rho the inside radius of a hit. A blank that is cut for the
 * arc leaves its legs short by that, both together (plain geometry).
 */
export const shortByMm = (
  { angleDeg, insideRadiusMm }: WideBend,
  { hits }: Bump,
  hitRadiusMm: number,
): number =>
  Math.max(0, insideRadiusMm - hitRadiusMm) *
  (2 * hits * tanDeg(angleDeg / hits / 2) - (angleDeg * Math.PI) / 180);
