import { cosDeg, NO_FLAT_MM, sinDeg, wholeUp } from '../../src/template.ts';
import type { Saddle } from './inputs.ts';

/*
 * The clip in section, the middle of the tube at the origin. R is the inside radius of the hug, r that
 * of the bends of the ears, t the sheet, s the straight metal between a hug and an ear. The face
 * towards the tube runs straight on from the hug for s, and then turns the other way about a radius of
 * r + t. Plane geometry; tests/templates/saddle.test.ts walks it once more.
 */

/**
 * The hug is made of two bends with a crown between them, for a bend is no more than half a turn. The
 * crown is no flat that anybody sees: just wide enough to count as metal.
 */
export const CROWN_MM = 2 * NO_FLAT_MM;

/** Inside radius of the hug. */
export const hugRadiusMm = (v: Saddle): number => v.diameter / 2 + v.rubber;

/** Straight metal between hug and ear that a clip is given where nothing else decides it. */
export const leastStraightMm = (v: Saddle): number => v.thicknessMm;

/** How a clip runs round its tube. */
export interface Profile {
  /** How far the hug goes round, degrees. */
  readonly hugDeg: number;
  /** Angle of the bends of the ears. */
  readonly earDeg: number;
  /** Straight metal between hug and ear. */
  readonly straightMm: number;
  /** From the middle of the tube to where an ear is flat, along it. */
  readonly flatFromMm: number;
  /** Height of the tube's middle over the surface, or over the joint of two halves. */
  readonly seatMm: number;
}

export const profileOf = (v: Saddle): Profile =>
  v.kind === 'p' ? aroundOnce(v) : v.kind === 'halves' ? half(v) : onSurface(v);

/** Where the ears of a clip that is symmetrical become flat, by half its hug. */
const flatFrom = (v: Saddle, halfDeg: number, straightMm: number): number =>
  (hugRadiusMm(v) + v.insideRadiusMm + v.thicknessMm) * sinDeg(halfDeg) +
  straightMm * cosDeg(halfDeg) +
  CROWN_MM / 2;

/**
 * The lowest seat of a saddle that leaves that much straight metal: the ear lies gap over the
 * surface, so seat = gap + (r + t) - (R + r + t) cos a + s sin a with a half the hug.
 */
export const seatFor = (v: Saddle, straightMm: number): number => {
  const bend = v.insideRadiusMm + v.thicknessMm;
  const a = v.around / 2;
  return v.gap + bend - (hugRadiusMm(v) + bend) * cosDeg(a) + straightMm * sinDeg(a);
};

const onSurface = (v: Saddle): Profile => {
  const halfDeg = v.around / 2;
  const seatMm = v.seat ?? Math.max(hugRadiusMm(v), seatFor(v, leastStraightMm(v)));
  const straightMm = (seatMm - seatFor(v, 0)) / sinDeg(halfDeg);
  return {
    hugDeg: v.around,
    earDeg: halfDeg,
    straightMm,
    flatFromMm: flatFrom(v, halfDeg, straightMm),
    seatMm,
  };
};

/**
 * Half of a clip in two: its ears end half a gap before the middle, (R + r + t) cos a - s sin a = r +
 * t + gap / 2.
 */
const half = (v: Saddle): Profile => {
  const bend = v.insideRadiusMm + v.thicknessMm;
  const straightMm = leastStraightMm(v);
  const reach = hugRadiusMm(v) + bend;
  const halfDeg =
    acosDeg((bend + v.gap / 2) / Math.hypot(reach, straightMm)) - atanDeg(straightMm, reach);
  return {
    hugDeg: 2 * halfDeg,
    earDeg: halfDeg,
    straightMm,
    flatFromMm: flatFrom(v, halfDeg, straightMm),
    seatMm: 0,
  };
};

/**
 * A P clip: its foot runs off the hug under the tube; the other ear comes to lie gap over the foot.
 * With b what the hug leaves open, (R + r + t) cos b + s sin b = R - r - t - gap.
 */
const aroundOnce = (v: Saddle): Profile => {
  const bend = v.insideRadiusMm + v.thicknessMm;
  const radius = hugRadiusMm(v);
  const straightMm = leastStraightMm(v);
  const reach = radius + bend;
  const openFor = (gapMm: number): number =>
    atanDeg(straightMm, reach) + acosDeg((radius - bend - gapMm) / Math.hypot(reach, straightMm));
  // The crown moves the ear along the way that the hug runs half way round, a thousandth up.
  const openDeg = openFor(v.gap - CROWN_MM * sinDeg(openFor(v.gap) / 2));
  return {
    hugDeg: 360 - openDeg,
    earDeg: 180 - openDeg,
    straightMm,
    flatFromMm:
      reach * sinDeg(openDeg) - straightMm * cosDeg(openDeg) + CROWN_MM * cosDeg(openDeg / 2),
    seatMm: radius + v.thicknessMm,
  };
};

const acosDeg = (share: number): number => (Math.acos(share) * 180) / Math.PI;
const atanDeg = (y: number, x: number): number => (Math.atan2(y, x) * 180) / Math.PI;

/**
 * From the middle of the tube to the bolt of either ear. A washer is about twice as wide as its bolt
 * (ISO 7089, from memory), so a hole's diameter is room for half of it.
 */
export const boltsMm = (v: Saddle, { flatFromMm }: Profile): readonly [number, number] => {
  const one = v.boltFrom ?? wholeUp(flatFromMm - CROWN_MM + v.boltHole + v.thicknessMm);
  return [one, v.kind === 'p' ? one : (v.boltFromB ?? one)];
};
