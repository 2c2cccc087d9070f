import { LITRES_PER_MM3 } from '../../src/template.ts';
import { FLUIDS } from '../tank/fluids.ts';
import { depthAt, strapPlaces } from './sizes.ts';
import type { Cradle } from './inputs.ts';

/** What hangs in the cradle, standing still. */
export interface Load {
  /** What the tank holds by its outside, brim-full. */
  readonly litres: number;
  readonly fluidKg: number;
  /** With the empty tank, where its mass was given. */
  readonly fullKg: number;
  /** Where the middle of the fluid hangs, from the left end of the tank. */
  readonly alongMm: number;
  /** What either strap carries of it, by the lever between them. */
  readonly strapKg: readonly [left: number, right: number];
}

/**
 * A box whose floor is one plane: its volume is its plan by the depth in the middle, and of a depth
 * d + s x the middle lies at (d L/2 + s L^2/3) / (d + s L/2). The empty tank counts as spread in the
 * same way.
 */
export const loadOf = (v: Cradle): Load => {
  const [left, right] = [0, v.length].map((x) => depthAt(v, x, v.width / 2)) as [number, number];
  const litres = v.length * v.width * ((left + right) / 2) * LITRES_PER_MM3;
  const fluidKg = (litres * FLUIDS[v.fluid].densityKgM3) / 1000;
  const fullKg = fluidKg + (v.emptyMass ?? 0);
  const alongMm = (v.length * (left + 2 * right)) / (3 * (left + right));
  const [one, other] = strapPlaces(v);
  const onRight = (fullKg * (alongMm - one)) / (other - one);
  return { litres, fluidKg, fullKg, alongMm, strapKg: [fullKg - onRight, onRight] };
};
