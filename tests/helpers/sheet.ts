import { findMaterial } from '../../src/data/materials.ts';
import type { Material } from '../../src/model/material.ts';
import { publishedFile } from './published.ts';

interface BendingTables {
  readonly din6935_min_radius_mm: Readonly<Record<string, readonly number[]>>;
  readonly en485_min_radius_factor_90: Factors;
  readonly en485_min_radius_factor_180: Factors;
  readonly material_properties: { readonly rows: readonly Properties[] };
}

/**
 * A row of factors by alloy and temper, one for each thickness class; `null` where none is given.
 */
type Factors = { readonly over_upto_mm: readonly (readonly [number, number])[] } & Readonly<
  Record<string, unknown>
>;

/** Strengths in MPa; those of steel by thickness in mm. */
interface Properties {
  readonly name: string;
  readonly Re_min_t16?: number;
  readonly Rp02_min?: number;
  readonly Rm?: readonly [number, number];
  readonly Rm_min?: number;
  readonly Rm_t_under3?: readonly [number, number];
  readonly Rm_t3_100?: readonly [number, number];
  readonly E_GPa: number;
  readonly rho: number;
}

/** Tables of bending and of the strength of sheet; sources stand beside each in the file. */
export const bending = publishedFile<BendingTables>('bending-tables');

/** The material of that name, or a failed test. */
export const material = (name: string): Material => {
  const found = findMaterial(name);
  if (!found.ok) throw new Error(found.reason);
  return found.value;
};
