import { type BendAtNose, noseGapMm } from '../machines/nose.ts';

/**
 * What is marked on the blank for one bend. Distances are along the blank, mm, square to the bend.
 */
export interface SightLine {
  /** The line that comes under the very front of the clamp's nose. */
  readonly markMm: number;
  /** How far the nose stands back from the leaf's edge. */
  readonly noseGapMm: number;
}

/**
 * The place of the mark for a folder with a clamp: one nose radius from the tangent line of the
 * clamped side towards the part that is swung up. A full-radius nose is as round as the bend, which
 * gives the sight line of FAA-H-8083-31 chapter 4; a sharp nose has its mark on the tangent line
 * itself. At 90 degrees the nose stands back from the leaf by t + (r - nose radius), which is one
 * thickness for a nose of the bend's own radius, as that handbook says (`noseGapMm`).
 *
 * @param clampTangentMm the tangent line of the clamped side
 * @param towards 1 when the swung side lies at larger measures, -1 when at smaller
 */
export const sightLine = (
  clampTangentMm: number,
  towards: 1 | -1,
  noseRadiusMm: number,
  bend: BendAtNose,
): SightLine => ({
  markMm: clampTangentMm + towards * Math.min(noseRadiusMm, bend.insideRadiusMm),
  noseGapMm: noseGapMm(bend, noseRadiusMm),
});
