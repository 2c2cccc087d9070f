/** What a tank is filled with. */
export interface Fluid {
  readonly densityKgM3: number;
  readonly densitySource: string;
  /** Expansion in volume for each degree; missing where it does not matter. */
  readonly expansionPerDeg?: number;
  readonly expansionSource?: string;
}

export type FluidName = 'diesel' | 'petrol' | 'water';

/** Densities are the greatest that each may have, since a bracket has to carry it. */
export const FLUIDS: Readonly<Record<FluidName, Fluid>> = {
  diesel: {
    densityKgM3: 845,
    densitySource: 'EN 590: 820 to 845 kg/m3 at 15 C',
    // 0.00046 for each degree Fahrenheit.
    expansionPerDeg: 0.00046 * 1.8,
    expansionSource: "0.00046 for each degree F, a fuel supplier's figure",
  },
  petrol: {
    densityKgM3: 775,
    densitySource: 'EN 228: 720 to 775 kg/m3, from memory',
    expansionPerDeg: 0.00095,
    expansionSource: "0.00095 for each degree C, a university's figure",
  },
  water: { densityKgM3: 1000, densitySource: 'water at 4 C' },
};

/**
 * 49 CFR 393.67 (fuel tanks of road vehicles, after a summary of it): a tank must not take more
 * than this in normal filling, %.
 */
export const MOST_FULL_PERCENT = 95;
export const FILL_LIMIT = `49 CFR 393.67 (fuel tanks of road vehicles, after a summary of it) allows ${MOST_FULL_PERCENT} %`;

/** Least walls of fuel tanks by ISO 21487 (small craft, after a summary of it), mm. */
export const LEAST_WALL_MM = { aluminium: 2, steel: 1.5, galvanised: 1.5, stainless: 1 } as const;

/**
 * How many degrees the fluid may warm up before a tank filled to the limit is brim-full: p (1 + b
 * dT) = 1.
 */
export const warmingDeg = (fullPercent: number, expansionPerDeg: number): number =>
  (100 / fullPercent - 1) / expansionPerDeg;
