/**
 * How sure a figure is: read in a published source, usual in the trade, recalled without a source
 * at hand, or measured by the shop itself.
 */
export type Basis = 'published' | 'common practice' | 'from memory' | 'measured';

/** A figure and its source. */
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
  /** The name typed on the command line, in lower case: `s275`. */
  readonly id: string;
  /** The name written on an order: `S275JR`. */
  readonly name: string;
  /** Other ids that mean the same sheet. */
  readonly aliases: readonly string[];
  readonly family: 'steel' | 'galvanised' | 'aluminium' | 'stainless';
  readonly densityKgM3: Sourced<number>;
  /** Yield strength; `null` where the standard guarantees none. */
  readonly yieldMpa: Sourced<number | null>;
  readonly tensileMpa: Sourced<readonly [min: number, max: number | null]>;
  /** Least elongation after fracture of thin sheet, percent; its source says over what length. */
  readonly elongationPct: Sourced<number>;
  readonly modulusMpa: Sourced<number>;
  readonly stockThicknessesMm: Sourced<readonly number[]>;
  /** Smallest inside radius for a bend across the grain, by thickness class. */
  readonly leastRadius: Sourced<readonly LeastRadius[]>;
  /** `null` where no scale is agreed on; gauges are then refused. */
  readonly gaugeScale: GaugeScale | null;
  /** One line that helps to choose: what it is good for and what to look out for. */
  readonly remark: string;
}

/**
 * A radius for the class, or a factor times the thickness. `upToMm` is the upper end of the class,
 * inclusive; the values called steep hold for bends over 120 degrees.
 */
export type LeastRadius =
  | { readonly upToMm: number; readonly radiusMm: number; readonly steepRadiusMm: number }
  | { readonly upToMm: number; readonly factor: number; readonly steepFactor: number };
