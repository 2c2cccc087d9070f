import type { HemForm } from '../model/bend-rule.ts';
import type { Bend } from './bend.ts';

/**
 * A bend of at least this angle ends with its sides on each other: a hem, unless its radius is that
 * of a bow.
 */
export const HEM_DEG = 170;

/**
 * Hems are narrower inside than this many thicknesses of radius; what is wider is bent about a
 * former (common practice).
 */
export const WIDEST_HEM = 5;

/**
 * Up to this radius, in thicknesses, nothing is left of the gap when a hem has been pressed (common
 * practice).
 */
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
 * K of a hem for which no rule has one, measured on nothing of the shop's own: the middle of the
 * sheet. A closed hem then takes 2 t - pi t / 2 = 0.43 t off the sum of its legs, which is what
 * shops reckon with for sheet under about 2 mm (common practice). The US Navy's Steelworker manual,
 * vol. 2, ch. 2 (edges and seams) takes nothing off: the width of a single hem is its allowance,
 * thickness left out of account, for light gauges.
 */
export const HEM_K = 0.5;

/** The hem allowance of common practice is given for sheet up to about this, mm. */
export const HEM_SHEET_MM = 2;

/**
 * The loop of a teardrop hem: how far past half a turn it goes until its edge is down on the sheet,
 * and its straight.
 */
export interface Teardrop {
  readonly pastDeg: number;
  /** From the loop to the edge, mm. */
  readonly straightMm: number;
}

/**
 * A teardrop hem of a depth, from its edge to the outermost point of its loop. The loop of inside
 * radius r turns 180 degrees + d; from there the inside face falls by r (1 + cos d) over the
 * straight, to the sheet: so the straight is r / tan(d / 2), and the depth (r + t)(1 + sin d) + r
 * cos d / tan(d / 2). Plain geometry. A hem of the least depth, `leastTeardropMm`, comes down
 * square to the sheet.
 */
export const teardropOf = (
  insideRadiusMm: number,
  thicknessMm: number,
  depthMm: number,
): Teardrop => {
  // The depth falls as the loop turns further: the angle is found by halving.
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

/** Shallower than this no edge of a teardrop comes down on the sheet, mm. */
export const leastTeardropMm = (insideRadiusMm: number, thicknessMm: number): number =>
  2 * (insideRadiusMm + thicknessMm);

/** A depth that was worked out to be the least is the least, whatever rounding made of it. */
const NO_LACK_MM = 1e-9;

/** What a teardrop hem lacks of the least depth, mm; `undefined` where it is deep enough. */
export const lackingTeardropMm = (
  insideRadiusMm: number,
  thicknessMm: number,
  depthMm: number,
): number | undefined => {
  const lacks = leastTeardropMm(insideRadiusMm, thicknessMm) - depthMm;
  return lacks > NO_LACK_MM ? lacks : undefined;
};

/**
 * Why a teardrop hem cannot be: it has no loop, or lacks so many mm of depth for its edge to come
 * down.
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
 * What a teardrop hem has beyond the leg that it is drawn with: a leg that runs back along the
 * sheet from a half turn and ends at the same depth. `arcMm` is the length of the whole loop in the
 * flat.
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
 * The K that explains what a folded hem lost, its legs both measured to the outermost point; the
 * inverse of the above.
 */
export const hemKOf = (bend: Bend, deductionMm: number): number => {
  const [none, whole] = [hemAllowanceMm(0, bend), hemAllowanceMm(1, bend)];
  return (2 * (bend.insideRadiusMm + bend.thicknessMm) - deductionMm - none) / (whole - none);
};
