import { HEM_DEG } from '../../bending/hem.ts';
import {
  BLOCK_LONGEST_MM,
  BLOCK_MOMENT,
  BLOCK_STEEPEST_DEG,
  BLOCK_THICKEST_MM,
  foldMomentNmm,
  REST_MOMENT,
} from '../machines/helps.ts';
import { foldIdsOf, type FoldNet, type Hands, type NetFold } from '../machines/net.ts';
import type { Beyond } from './capacity.ts';
import type { PartToFold } from './plan-steps.ts';
import { strengthMpa } from './step-notes.ts';

/**
 * What hands may do of each fold of a part: which are light enough to be made over a block, which to
 * be taken through their last degrees, and which the machine is not asked for.
 */
export const handsFor = (
  { material, part: { thicknessMm, folds } }: PartToFold,
  net: FoldNet,
  beyond: readonly Beyond[],
): Hands => {
  const momentOf = ({ lengthMm }: NetFold): number =>
    foldMomentNmm(strengthMpa(material), thicknessMm, lengthMm);
  // A hem is closed by hand in any case, and from less than the machine's own pre-bend it buckles.
  const isHem = (fold: NetFold): boolean =>
    folds.some(({ id, angleDeg }) => angleDeg >= HEM_DEG && foldIdsOf(fold).includes(id));
  const bitsWhere = (holds: (fold: NetFold) => boolean): number =>
    net.folds.reduce((bits, fold, i) => bits | (holds(fold) ? 1 << i : 0), 0);
  const isThin = thicknessMm <= BLOCK_THICKEST_MM;
  return {
    beyondMachine: bitsWhere((f) => beyond.some(({ bend }) => foldIdsOf(f).includes(bend))),
    overBlock: bitsWhere(
      (f) =>
        isThin &&
        f.lengthMm <= BLOCK_LONGEST_MM &&
        f.angleDeg <= BLOCK_STEEPEST_DEG &&
        momentOf(f) <= BLOCK_MOMENT,
    ),
    rest: bitsWhere((f) => isThin && !isHem(f) && momentOf(f) <= REST_MOMENT),
  };
};

/** Whether every fold that the machine is not asked for can be left to the hands. */
export const isWithinHands = ({ beyondMachine, overBlock }: Hands): boolean =>
  (beyondMachine & ~overBlock) === 0;
