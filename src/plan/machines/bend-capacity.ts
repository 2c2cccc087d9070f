import type { Basis, Material } from '../../model/material.ts';

/**
 * The greatest thickness that a machine bends over a short length, as a multiple of the thickness
 * it is rated for. The one published example goes to 1.67, a 6 ft machine of 0.036 in sheet that
 * also bends 2 ft of 0.060 in. No source gives more, because nose, clamp and bed edge are made for
 * the rated sheet however short the piece is. The value is that example to two figures.
 */
export const MOST_OVER_RATING = 1.7;

/**
 * Longest bend of a folder in sheet thicker than it is rated for, mm. The moment grows with t^2 and
 * with the length, so the length is L0 (t0 / t)^2, and never more than the length of the machine
 * (derived; the formula gives 2.16 ft for the published example above). It is 0 over
 * `MOST_OVER_RATING`.
 *
 * @param derating share of the rated thickness that the machine takes as it is set up
 */
export const longestBendMm = (
  rated: {
    readonly lengthMm: number;
    readonly thicknessMm: number;
    /** The thickest sheet that it has bent, where that is more than `MOST_OVER_RATING` allows. */
    readonly mostMm?: number;
  },
  thicknessMm: number,
  derating = 1,
): number =>
  thicknessMm > Math.max(MOST_OVER_RATING * rated.thicknessMm, rated.mostMm ?? 0)
    ? 0
    : rated.lengthMm * Math.min(1, ((derating * rated.thicknessMm) / thicknessMm) ** 2);

/**
 * The rating that follows from a fold that was made: the thickness t0 of mild steel over the whole
 * length L0 for which `longestBendMm` gives the length L of that fold in its sheet t, t0 = t sqrt(L
 * / L0) / (derating f), with f the factor of its material (`deratingOf`).
 *
 * @param derating share of the rating that was left as the machine was set up then
 */
export const ratingByFoldMm = (
  made: { readonly thicknessMm: number; readonly lengthMm: number; readonly factor: number },
  lengthMm: number,
  derating = 1,
): number =>
  (made.thicknessMm * Math.sqrt(Math.min(1, made.lengthMm / lengthMm))) / (derating * made.factor);

/** How much of another sheet a folder takes that is rated for mild steel. */
export interface Derating {
  /** Thickness of that sheet over thickness of mild steel, for the same machine and length. */
  readonly factor: number;
  readonly basis: Basis;
  readonly source: string;
}

/** Tensile strength that the ratings of folders assume, MPa: the mild steel of trade tables. */
const MILD_STEEL_MPA = 450;

/**
 * Converts a ratio of strengths r into a ratio of thicknesses, 1 / sqrt(r), because the moment
 * grows with the strength and with t^2.
 */
const byStrength = (material: Material): number => {
  const [least, greatest] = material.tensileMpa.value;
  return Math.sqrt(MILD_STEEL_MPA / (greatest ?? least));
};

/** How much thicker than mild steel aluminium may be by the trade's rule. */
const ALUMINIUM = 1.5;

/**
 * How much of a material a folder rated for mild steel takes at full length. Stainless: four gauges
 * less, which is 0.6 of the thickness (a published instruction; the ratio of strengths alone would
 * give 0.8, and the smaller is used). Aluminium: 1.5 times by the trade's rule, or what the ratio of
 * strengths gives where that is less. Steel stronger than mild steel: by the square root of the
 * ratio of strengths; weaker steel counts as mild steel.
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
      factor: Math.min(ALUMINIUM, byStrength(material)),
      basis: 'published',
      source:
        'trade article on brake capacity: 1.5 times mild steel; the square root of the ratio of tensile strengths where that is less',
    };
  return {
    factor: Math.min(1, byStrength(material)),
    basis: 'common practice',
    source: 'square root of the ratio of tensile strengths',
  };
};

/**
 * Factor for fingers in place of the whole beam: two gauges less, by the lower of the published
 * 0.71 to 0.80 (instruction guide for 4-foot box brakes; gauge table of a trade article).
 */
export const FINGER_DERATING = 0.71;

/** Factor for a leaf without its bar: two gauges less as well, from the same guide. */
export const BARE_LEAF_DERATING = 0.71;

/**
 * The flange that a folder is rated for at its full capacity, mm: 1 in (instruction guide for
 * 4-foot box brakes of 12, 14 and 16 gauge class).
 */
const RATED_FLANGE_MM = 25;

/**
 * Least flange by what the leaf can push, mm from the hinge. The moment grows with t^2 and with the
 * length of the fold, and the leaf pushes at the flange's end: 25 (t / t0)^2 L / L0, which is the
 * rated flange for the rated sheet (derived).
 */
export const leastFlangeMm = (
  rated: { readonly lengthMm: number; readonly thicknessMm: number },
  thicknessMm: number,
  foldMm: number,
): number => RATED_FLANGE_MM * (thicknessMm / rated.thicknessMm) ** 2 * (foldMm / rated.lengthMm);
