/**
 * How a large radius is made in many slight bends ("bumped"), on a brake or a folder. Lengths along
 * the bend lie on the middle of the sheet.
 */
export interface Bumping {
  readonly hits: number;
  readonly degPerHit: number;
  /** From hit to hit, mm. */
  readonly pitchMm: number;
  /** From where the round begins to the first hit, and from the last one to where it ends, mm. */
  readonly firstMm: number;
  /** How far the corners between the flats stand off the round, mm. */
  readonly standOffMm: number;
}

/** A wall looks and feels round where its corners stand off by less than this, mm (own choice). */
const SMOOTH_MM = 0.2;
/** More than this at a hit leaves facets that are seen (common practice). */
const MOST_HIT_DEG = 10;
/** Hits nearer to each other than this, in thicknesses, run into one another (common practice). */
const LEAST_PITCH = 1.5;

/**
 * A round of `angleDeg` in n hits of A / n. The flats are tangent to the round at their middles, so
 * the first hit lies half a pitch from where it begins, and a corner between two of them stands
 * R (1 / cos(A / 2n) - 1) off the middle of the sheet's own round (plane geometry). Where the number
 * of hits is left out, there are as many as keep that within 0.2 mm and a hit within 10 degrees, as
 * far as the hits stay 1.5 thicknesses apart. Texts of the trade that ask for a smooth face give
 * some 2 degrees a hit; a brake's die wants a pitch of half its opening.
 */
export const bumping = (
  {
    insideRadiusMm,
    thicknessMm,
    angleDeg,
  }: {
    readonly insideRadiusMm: number;
    readonly thicknessMm: number;
    readonly angleDeg: number;
  },
  hits = hitsFor(insideRadiusMm + thicknessMm / 2, thicknessMm, angleDeg),
): Bumping => {
  const middleMm = insideRadiusMm + thicknessMm / 2;
  const rad = (angleDeg * Math.PI) / 180;
  const pitchMm = (middleMm * rad) / hits;
  return {
    hits,
    degPerHit: angleDeg / hits,
    pitchMm,
    firstMm: pitchMm / 2,
    standOffMm: middleMm * (1 / Math.cos(rad / (2 * hits)) - 1),
  };
};

const hitsFor = (middleMm: number, thicknessMm: number, angleDeg: number): number => {
  const smoothDeg = (2 * Math.acos(middleMm / (middleMm + SMOOTH_MM)) * 180) / Math.PI;
  // Rounded first, so that noise in the last figures is no hit of its own.
  const wanted = Math.ceil(Number((angleDeg / Math.min(smoothDeg, MOST_HIT_DEG)).toFixed(6)));
  const most = Math.floor((middleMm * angleDeg * Math.PI) / 180 / (LEAST_PITCH * thicknessMm));
  return Math.max(1, Math.min(wanted, most));
};
