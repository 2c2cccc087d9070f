import { setbackMm } from '../../src/template.ts';
import type { Shell } from './inputs.ts';

/** Sizes of a shell and of one of its pieces, mm and degrees. */
export interface ShellSizes {
  readonly insideMm: number;
  readonly middleMm: number;
  readonly outsideMm: number;
  readonly isClosed: boolean;
  readonly hasLap: boolean;
  /** How far round a piece goes, from seam to seam. */
  readonly pieceDeg: number;
  /** The gap that a piece gives up at its two edges together, without flanges. */
  readonly gapMm: number;
  /** Length of the wall of a piece round the middle of the sheet, rolled metal alone. */
  readonly aroundMm: number;
  readonly flange: FlangeSizes | undefined;
}

/** Flanges of a piece. */
export interface FlangeSizes {
  /** The wall ends so far from the plane in which two flanges meet. */
  readonly shortDeg: number;
  readonly bendDeg: number;
  readonly setbackMm: number;
}

/** A hole of a piece: which of the holes that were given, and where from the left edge of the piece. */
export interface OwnHole {
  readonly number: number;
  readonly deg: number;
}

const RAD = Math.PI / 180;

/** Radii inside, on the middle and outside: what is added to pi D is pi t (mean diameter). */
const radii = ({ diameter, diameterOf, thicknessMm: t }: Shell) => {
  const middleMm = diameter / 2 + { inside: t / 2, outside: -t / 2, middle: 0 }[diameterOf];
  return { insideMm: middleMm - t / 2, middleMm, outsideMm: middleMm + t / 2 };
};

export const shellSizes = (v: Shell): ShellSizes => {
  const round = radii(v);
  const isClosed = v.arc === 360;
  const pieceDeg = v.arc / v.pieces;
  const hasLap = isClosed && v.seam === 'lap' && v.flange === 0;
  const seams = isClosed ? v.pieces : v.pieces - 1;
  const share = hasLap ? 0 : (seams * v.cornerGapMm) / v.pieces;
  const flange = v.flange > 0 ? flangeOf(v, round.insideMm, share) : undefined;
  const whole = round.middleMm * pieceDeg * RAD;
  return {
    ...round,
    isClosed,
    hasLap,
    pieceDeg,
    gapMm: flange === undefined ? share : 0,
    aroundMm:
      flange === undefined
        ? whole - share + (hasLap ? v.lap : 0)
        : round.middleMm * (pieceDeg - 2 * flange.shortDeg) * RAD,
    flange,
  };
};

/**
 * A flange whose mating face lies in the plane through the axis, half the gap from it: the wall ends
 * b degrees before that plane, runs on straight by the setback of a bend of 90 - b degrees, and what
 * its inside face then reaches is that plane: Ri sin b - gap / 2 = s cos b (plane geometry; found by
 * halving, since the left side grows and the right side falls). Nothing where no bend fits.
 */
const flangeOf = (
  { insideRadiusMm, thicknessMm }: Shell,
  insideMm: number,
  gapMm: number,
): FlangeSizes | undefined => {
  const setback = (deg: number): number =>
    setbackMm(90 - deg, insideRadiusMm, thicknessMm, 'outside');
  const over = (deg: number): number =>
    insideMm * Math.sin(deg * RAD) - gapMm / 2 - setback(deg) * Math.cos(deg * RAD);
  let [low, high] = [0, STEEPEST_DEG];
  if (over(high) < 0) return undefined;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (over(middle) < 0) low = middle;
    else high = middle;
  }
  return { shortDeg: high, bendDeg: 90 - high, setbackMm: setback(high) };
};

/** A bend that takes more of the round than this leaves no round to speak of. */
const STEEPEST_DEG = 45;

/** Degrees round from the left edge of a piece, as its holes are given, to x on its blank. */
export const xAt = (s: ShellSizes, deg: number): number =>
  s.flange === undefined
    ? s.middleMm * deg * RAD - s.gapMm / 2
    : s.middleMm * (deg - s.flange.shortDeg) * RAD;
