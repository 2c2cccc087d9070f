/**
 * How sure a figure is: read in a published source, usual in the trade, recalled without a source
 * at hand, or measured by the shop itself.
 */
export type Basis = 'published' | 'common practice' | 'from memory' | 'measured';

/** A figure with where it comes from. */
export interface Sourced<T> {
  readonly value: T;
  readonly basis: Basis;
  readonly source: string;
}

/** Which gauge scale a gauge number means on this metal. */
export type GaugeScale = 'steel' | 'galvanised' | 'aluminium';

/**
 * Sheet that a small shop buys. Moduli and strengths in MPa, density in kg/m3, thicknesses in mm.
 */
export interface Material {
  /** Lower case, as typed on the command line: `s275`. */
  readonly id: string;
  /** As written on an order: `S275JR`. */
  readonly name: string;
  /** Other ids that mean the same sheet. */
  readonly aliases: readonly string[];
  readonly family: 'steel' | 'galvanised' | 'aluminium' | 'stainless';
  readonly densityKgM3: Sourced<number>;
  /** `null` where the standard guarantees none. */
  readonly yieldMpa: Sourced<number | null>;
  readonly tensileMpa: Sourced<readonly [min: number, max: number | null]>;
  readonly modulusMpa: Sourced<number>;
  readonly stockThicknessesMm: Sourced<readonly number[]>;
  /** Least inside radius for a bend across the grain, by thickness class. */
  readonly leastRadius: Sourced<readonly LeastRadius[]>;
  /** `null` where no scale is agreed on: then gauges are refused. */
  readonly gaugeScale: GaugeScale | null;
  /** One line for whoever chooses: what it is good for, what to look out for. */
  readonly remark: string;
}

/**
 * A radius for the class, or a factor times the thickness. `upToMm` is the upper end of the class,
 * inclusive; what is called steep holds for bends over 120 degrees.
 */
export type LeastRadius =
  | { readonly upToMm: number; readonly radiusMm: number; readonly steepRadiusMm: number }
  | { readonly upToMm: number; readonly factor: number; readonly steepFactor: number };
