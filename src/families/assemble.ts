import type { CommonValues } from '../input/common.ts';
import type { Part } from '../model/part.ts';

/**
 * A part out of its panels and folds, with what the common inputs say about every part. A relief is as wide as the
 * sheet is thick, and never narrower than the cutter can cut (common practice: 1 to 1.5 thicknesses).
 */
export const assemble = (values: CommonValues, tree: Pick<Part, 'root' | 'panels' | 'folds' | 'corners' | 'wishes'>): Part => ({
  name: values.name,
  thicknessMm: values.thicknessMm,
  measure: values.measure,
  relief: {
    shape: values.reliefShape,
    widthMm: Math.max(values.thicknessMm, values.leastSlotMm),
    leastSlotMm: values.leastSlotMm,
  },
  cornerGapMm: values.cornerGapMm,
  ...tree,
});
