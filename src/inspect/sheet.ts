import {
  type Cutter,
  cutterFor,
  isAssumedIn,
  kerfOf,
  limitOf,
  type LimitRows,
  type MaterialFamily,
  type Shop,
} from '../model/shop.ts';

/** What the cutter asks of a drawing. */
export interface CutLimits {
  readonly cutter: string;
  /** Whether its figures are assumed, and not those of a shop. */
  readonly isAssumed: boolean;
  readonly bed: { readonly length: number; readonly width: number };
  /** Undefined without a thickness. */
  readonly sheet: SheetLimits | undefined;
}

/** Least sizes in one sheet, mm. */
export interface SheetLimits {
  readonly thicknessMm: number;
  readonly leastHole: number;
  readonly leastSlot: number;
  readonly leastWeb: number;
  readonly leastEdge: number;
}

/**
 * The limits of the first cutter that takes a thickness, or of the first cutter at all when no
 * thickness is given. Undefined where none takes it.
 */
export const cutLimits = (
  shop: Shop,
  thicknessMm: number | undefined,
  material: MaterialFamily,
): CutLimits | undefined => {
  const cutter = thicknessMm === undefined ? shop.cutters[0] : cutterFor(shop, thicknessMm);
  if (cutter === undefined) return undefined;
  const sheet = thicknessMm === undefined ? undefined : sheetLimits(cutter, thicknessMm, material);
  return { cutter: cutter.name, isAssumed: isAssumedIn(shop, 'cutters'), bed: cutter.bed, sheet };
};

const sheetLimits = (
  cutter: Cutter,
  thicknessMm: number,
  material: MaterialFamily,
): SheetLimits => {
  const kerf = kerfOf(cutter, material, thicknessMm);
  const least = (rows: LimitRows): number => limitOf(rows, thicknessMm, kerf);
  return {
    thicknessMm,
    leastHole: least(cutter.leastHole),
    leastSlot: least(cutter.leastSlot),
    leastWeb: least(cutter.leastWeb),
    leastEdge: least(cutter.leastEdge),
  };
};
