import { type HatAsk, slopedHat, type SlopedHat, slopesOf } from '../../src/template.ts';
import type { Strap } from './inputs.ts';

/** Distance between the inside faces of the two sides. */
export const insideMm = (v: Strap): number => v.across + 2 * v.rubber;

/**
 * Distance from the inside face of a side, which is the mould line of its foot, to the centre of
 * the bolt.
 */
export const boltFromSideMm = (v: Strap): number => (v.boltCentres - insideMm(v)) / 2;

/** How much the top of the box rises from side A to side B: as it was read, or by both heights. */
export const riseDeg = (v: Strap): number =>
  v.heightB === undefined
    ? v.slopeAcross
    : (Math.atan((v.stepB + v.heightB - v.height) / v.across) * 180) / Math.PI;

/** Whether the sides differ, or the crown is not level. */
export const isSloped = (v: Strap): boolean =>
  v.over === 'box' && (riseDeg(v) !== 0 || v.slopeAlong !== 0);

/** The strap over a box as a hat that stands on its feet, which are not pulled down yet. */
export const hatAsk = (v: Strap): HatAsk => {
  const slopes = { riseDeg: riseDeg(v), leanDeg: v.slopeAlong };
  const [rise, , steep] = slopesOf(slopes);
  return {
    ...slopes,
    insideMm: insideMm(v),
    widthMm: v.width,
    // The rubber lies on the slope, and side A stands a rubber beside the box.
    heightMm: v.height + v.rubber * steep - v.pullUp - v.rubber * rise,
    stepMm: v.stepB,
    thicknessMm: v.thicknessMm,
    insideRadiusMm: v.insideRadiusMm,
  };
};

export const hatOf = (v: Strap): SlopedHat => slopedHat(hatAsk(v));
