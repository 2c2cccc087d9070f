import type { Basis, LeastRadius, Sourced } from '../../model/material.ts';
import { fromMemory, practice } from '../sourced.ts';

/** What stockholders usually keep; no published list was found. */
export const stock = (...thicknesses: readonly number[]): Sourced<readonly number[]> =>
  practice(thicknesses, 'usual European stock thicknesses; confirm with the supplier');

/** Young's moduli, MPa. */
export const STEEL_MODULUS = fromMemory(210_000);
export const ALUMINIUM_MODULUS = fromMemory(70_000);

const DIN6935_CLASSES_MM = [1, 1.5, 2.5, 3, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20];

/**
 * Smallest inside radius by thickness class and least tensile strength, for bends across the
 * rolling direction up to 120 degrees; a steeper one takes the radius of the next class. Source:
 * DIN 6935:1975-10, quoted in a trade-school worksheet on bending. The last class has no next one
 * and keeps its own radius.
 */
const DIN6935_RADII = {
  'up to 390': [1, 1.6, 2.5, 3, 5, 6, 8, 10, 12, 16, 20, 25, 28, 36, 40],
  'over 390 to 490': [1.2, 2, 3, 4, 5, 8, 10, 12, 16, 20, 25, 28, 32, 40, 45],
  'over 490 to 640': [1.6, 2.5, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 36, 45, 50],
} as const;

/** `tensile` is the class of the least tensile strength, MPa. */
export const din6935Radii = (
  tensile: keyof typeof DIN6935_RADII,
  basis: Basis = 'published',
): Sourced<readonly LeastRadius[]> => {
  const radii: readonly number[] = DIN6935_RADII[tensile];
  return {
    value: DIN6935_CLASSES_MM.map((upToMm, i) => ({
      upToMm,
      radiusMm: radii[i] as number,
      steepRadiusMm: (radii[i + 1] ?? radii[i]) as number,
    })),
    basis,
    source: `DIN 6935, tensile strength ${tensile} MPa`,
  };
};

/** Factors of a thickness class for 90 degrees and, where the source has one, for 180. */
type FactorRow = readonly [upToMm: number, at90: number, at180?: number];

/**
 * Radii as multiples of the thickness. EN 485-2 gives factors for 90 and 180 degrees only; a bend
 * over 120 degrees takes the one for 180, so that no bend gets less than it needs. Where there is
 * none, the factor of the next class replaces it, as in DIN 6935 for steel: common practice. The
 * last class then keeps its own.
 */
export const factors = (
  source: string,
  basis: Basis,
  ...rows: readonly FactorRow[]
): Sourced<readonly LeastRadius[]> => ({
  value: rows.map(([upToMm, factor, at180], i) => ({
    upToMm,
    factor,
    steepFactor: at180 ?? rows[i + 1]?.[1] ?? factor,
  })),
  basis,
  source,
});
