import type { Gusset } from './inputs.ts';

export type Side = 'left' | 'right';

/**
 * One whose lengths are all outside ones. `added` is what a thickness added to the given ones, mm.
 */
export interface OutsideGusset extends Gusset {
  readonly added: number;
}

/**
 * The same bracket by its outside lengths. Inside ones are taken from the inside of base and
 * upright, and the width between the cheeks, or from the only one to the free edge.
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

/** From the outside of the left cheek, where there is one, to where the left end counts from. */
export const leftAdded = ({ gussetSide, added }: OutsideGusset): number =>
  gussetSide === 'right' ? 0 : added;

/**
 * The knife-sharp tip of the triangle is cut off this high, so that the whole fold has metal to
 * hold.
 */
export const noseMm = (v: Gusset): number => v.insideRadiusMm + 2 * v.thicknessMm;
