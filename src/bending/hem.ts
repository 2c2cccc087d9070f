import type { HemForm } from '../model/bend-rule.ts';
import type { Bend } from './bend.ts';

/**
 * A bend of at least this angle ends with its sides on each other. It is a hem, unless its radius
 * is that of a bow.
 */
export const HEM_DEG = 170;

/**
 * The inside radius of a hem, in thicknesses, is less than this; anything wider is bent about a
 * former (common practice).
 */
export const WIDEST_HEM = 5;

/** Up to this inside radius, in thicknesses, a pressed hem has no gap left (common practice). */
const CLOSED_RADIUS = 0.1;

/** What form of hem a bend is; `undefined` where it is none. */
export const hemFormOf = ({
  angleDeg,
  insideRadiusMm,
  thicknessMm,
  teardropMm,
}: Bend): HemForm | undefined => {
  if (teardropMm !== undefined) return 'teardrop';
  if (angleDeg < HEM_DEG || insideRadiusMm > WIDEST_HEM * thicknessMm) return undefined;
  return insideRadiusMm <= CLOSED_RADIUS * thicknessMm ? 'closed' : 'open';
};

/**
 * K of a hem where no rule gives one and the shop has measured none: the middle of the sheet. A
 * closed hem then takes 2 t - pi t / 2 = 0.43 t off the sum of its legs, which is what shops reckon
 * with for sheet under about 2 mm (common practice). The US Navy's Steelworker manual, vol. 2, ch.
 * 2 (edges and seams) takes nothing off: for light gauges it ignores the thickness, and the
 * allowance of a single hem is its width.
 */
export const HEM_K = 0.5;

/** The hem allowance of common practice is given for sheet up to about this, mm. */
export const HEM_SHEET_MM = 2;

/**
 * The loop of a teardrop hem: how far it turns past half a turn until its edge is down on the
 * sheet, and its straight.
 */
export interface Teardrop {
  readonly pastDeg: number;
  /** Length of the straight from the loop to the edge, mm. */
  readonly straightMm: number;
}

/**
 * The loop of a teardrop hem, given its depth from its edge to the outermost point of its loop. A
 * loop of inside radius r turns 180 degrees + d. Where it ends the inside face is r (1 + cos d)
 * above the sheet, and the straight falls by that much. The straight is therefore r / tan(d / 2)
 * long, and the depth is (r + t)(1 + sin d) + r cos d / tan(d / 2). This is plain geometry. A hem
 * of the least depth, `leastTeardropMm`, comes down square to the sheet.
 */
export const teardropOf = (
  insideRadiusMm: number,
  thicknessMm: number,
  depthMm: number,
): Teardrop => {
  // The depth falls as the loop turns further, so the angle is found by halving.
  let [low, high] = [0, Math.PI / 2];
  for (let i = 0; i < 60; i += 1) {
    const mid = (low + high) / 2;
    if (depthAt(insideRadiusMm, thicknessMm, mid) > depthMm) low = mid;
    else high = mid;
  }
  return { pastDeg: (high * 180) / Math.PI, straightMm: insideRadiusMm / Math.tan(high / 2) };
};

const depthAt = (r: number, t: number, past: number): number =>
  (r + t) * (1 + Math.sin(past)) + (r * Math.cos(past)) / Math.tan(past / 2);

/**
 * Least depth of a teardrop hem, mm; the edge of a shallower one does not come down on the sheet.
 */
export const leastTeardropMm = (insideRadiusMm: number, thicknessMm: number): number =>
  2 * (insideRadiusMm + thicknessMm);

/** A depth that was worked out as the least counts as the least, however it was rounded. */
const NO_LACK_MM = 1e-9;

/**
 * How far a teardrop hem falls short of the least depth, mm; `undefined` where it is deep enough.
 */
export const lackingTeardropMm = (
  insideRadiusMm: number,
  thicknessMm: number,
  depthMm: number,
): number | undefined => {
  const lacks = leastTeardropMm(insideRadiusMm, thicknessMm) - depthMm;
  return lacks > NO_LACK_MM ? lacks : undefined;
};

/**
 * Why a teardrop hem is impossible: it has no loop, or is so many mm too shallow for its edge to
 * come down.
 */
export const teardropProblem = (hem: {
  readonly radiusMm: number;
  readonly thicknessMm: number;
  readonly depthMm: number;
}): 'no loop' | number | undefined => {
  if (hem.radiusMm <= CLOSED_RADIUS * hem.thicknessMm) return 'no loop';
  return lackingTeardropMm(hem.radiusMm, hem.thicknessMm, hem.depthMm);
};

/**
 * What a teardrop hem adds to the leg that it is drawn with. That leg runs back along the sheet
 * from a half turn and ends at the same depth. `arcMm` is the length of the whole loop in the flat.
 */
export const teardropAllowanceMm = (
  { thicknessMm: t, insideRadiusMm: r }: Bend,
  depthMm: number,
  straightMm: number,
  arcMm: number,
): number => arcMm + straightMm - (depthMm - r - t);

/** The allowance of a hem on a neutral line at K thicknesses from its inside face, mm. */
export const hemAllowanceMm = (k: number, bend: Bend): number => {
  const { thicknessMm: t, insideRadiusMm: r, angleDeg, teardropMm } = bend;
  const arc = (turnedDeg: number): number => ((Math.PI * turnedDeg) / 180) * (r + k * t);
  if (teardropMm === undefined) return arc(angleDeg);
  const { pastDeg, straightMm } = teardropOf(r, t, teardropMm);
  return teardropAllowanceMm(bend, teardropMm, straightMm, arc(180 + pastDeg));
};

/**
 * The K that explains what a folded hem lost, both legs measured to the outermost point; the
 * inverse of `hemAllowanceMm`.
 */
export const hemKOf = (bend: Bend, deductionMm: number): number => {
  const [none, whole] = [hemAllowanceMm(0, bend), hemAllowanceMm(1, bend)];
  return (2 * (bend.insideRadiusMm + bend.thicknessMm) - deductionMm - none) / (whole - none);
};
