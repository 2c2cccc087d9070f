import type { Gusset } from './inputs.ts';

export type Side = 'left' | 'right';

/**
 * A gusset bracket whose lengths are all outside ones. `added` is what a thickness adds to the
 * given ones, mm.
 */
export interface OutsideGusset extends Gusset {
  readonly added: number;
}

/**
 * The same bracket by its outside lengths. Inside lengths are measured from the inside of base and
 * upright; the inside width is that between the cheeks, or from the only one to the free edge.
 */
export const outsideGusset = (v: Gusset): OutsideGusset => {
  const t = v.measure === 'inside' ? v.thicknessMm : 0;
  return {
    ...v,
    measure: 'outside',
    added: t,
    base: v.base + t,
    upright: v.upright + t,
    gussetDepth: v.gussetDepth + t,
    gussetHeight: v.gussetHeight + t,
    width: v.width + (v.gussetSide === 'both' ? 2 : 1) * t,
  };
};

/**
 * Distance from the outside of the left cheek, where there is one, to the place from which the left
 * end counts.
 */
export const leftAdded = ({ gussetSide, added }: OutsideGusset): number =>
  gussetSide === 'right' ? 0 : added;

/**
 * Height at which the knife-sharp tip of the triangle is cut off, so that the whole fold has metal
 * to hold.
 */
export const noseMm = (v: Gusset): number => v.insideRadiusMm + 2 * v.thicknessMm;
