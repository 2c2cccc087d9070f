import type { Basis, Material } from '../../model/material.ts';

/**
 * How many times the thickness that it is rated for a machine bends over a short length. The one
 * published example goes to 1.67, a 6 ft machine of 0.036 in sheet that also bends 2 ft of 0.060
 * in; more is nowhere given, for nose, clamp and bed edge are made for the rated sheet however
 * short the piece is. Two figures of it.
 */
export const MOST_OVER_RATING = 1.7;

/**
 * Longest bend of a folder in sheet thicker than it is rated for, mm: the moment grows with t^2 and
 * the length, so L0 (t0 / t)^2, and never more than the machine is long (derived; for the published
 * example above the formula gives 2.16 ft). None at all over `MOST_OVER_RATING`.
 */
export const longestBendMm = (
  rated: { readonly lengthMm: number; readonly thicknessMm: number },
  thicknessMm: number,
): number =>
  thicknessMm > MOST_OVER_RATING * rated.thicknessMm
    ? 0
    : rated.lengthMm * Math.min(1, (rated.thicknessMm / thicknessMm) ** 2);

/** How a folder rated for mild steel stands to another sheet. */
export interface Derating {
  /** Thickness of that sheet over thickness of mild steel, for the same machine and length. */
  readonly factor: number;
  readonly basis: Basis;
  readonly source: string;
}

/** Tensile strength that the ratings of folders mean, MPa: mild steel of trade tables. */
const MILD_STEEL_MPA = 450;

/**
 * A ratio of strengths r turns into a thickness by 1 / sqrt(r), for the moment grows with strength
 * and t^2.
 */
const byStrength = (material: Material): number => {
  const [least, greatest] = material.tensileMpa.value;
  return Math.sqrt(MILD_STEEL_MPA / Math.max(MILD_STEEL_MPA, greatest ?? least));
};

/**
 * What a folder rated for mild steel takes of a material at full length. Stainless: four gauges
 * less, 0.6 of the thickness (a published instruction; the ratio of strengths alone would give 0.8,
 * and the smaller is used). Aluminium: no more than the rating here, though trade rules allow up to
 * 1.5 times. Steel stronger than mild steel: by the square root of the ratio of strengths.
 */
export const deratingOf = (material: Material): Derating => {
  if (material.family === 'stainless')
    return {
      factor: 0.6,
      basis: 'published',
      source: 'instructions for bending brakes: four gauges less than mild steel',
    };
  if (material.family === 'aluminium')
    return {
      factor: 1,
      basis: 'common practice',
      source: 'as mild steel; trade rules allow up to 1.5 times',
    };
  return {
    factor: byStrength(material),
    basis: 'common practice',
    source: 'square root of the ratio of tensile strengths',
  };
};

/**
 * Two gauges less when fingers take the place of the whole beam: the lower of the published 0.71 to
 * 0.80.
 */
export const FINGER_DERATING = 0.71;
