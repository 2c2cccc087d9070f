import type { Material, Sourced } from './material.ts';

/** Tube that a small shop buys. Moduli and strengths in MPa, density in kg/m3. */
export interface TubeGrade extends Pick<Material, 'id' | 'name' | 'aliases' | 'family' | 'remark'> {
  readonly densityKgM3: Sourced<number>;
  /** Least yield strength. */
  readonly yieldMpa: Sourced<number>;
  readonly modulusMpa: Sourced<number>;
  /** Least elongation after fracture over five diameters, A5, percent. */
  readonly elongationPct: Sourced<number>;
  /**
   * A temper that is prone to crack in a bend, and in words another one to take in its place; absent
   * for tube that bends as it is bought.
   */
  readonly bendAs?: string;
}
