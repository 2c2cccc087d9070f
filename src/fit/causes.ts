import type { FoldedFile } from '../measure/folded-file.ts';
import { foldWithErrors, type FoldErrors, type BlankToFold } from './fold-with-errors.ts';
import type { Doubts } from './doubts.ts';

/** One source of error in folding a part, independent of all others. */
export interface FoldCause {
  readonly name: CauseName;
  /** The error is within this limit, to either side, 95 times in 100; mm, degrees or a K. */
  readonly limit: number;
  /** The only fold that it concerns; absent where it concerns all of them. */
  readonly fold?: string;
  /** The error, in the unit of the limit, with which `more` and `less` are folded. */
  readonly step: number;
  /** The part folded with the error of a step, positive and negative. */
  readonly more: FoldedFile;
  readonly less: FoldedFile;
}

/** Names of causes as they are reported; causes of one name are added up. */
export type CauseName =
  | 'sheet thickness'
  | 'the K factor'
  | 'the inside radius'
  | 'how one bend differs from the next'
  | 'where the fold lands'
  | 'the bend angle'
  | 'cutting'
  | 'the width of the cut'
  | `measuring ${string}`;

/**
 * The step of a cause, mm or degrees; that of K is a tenth of it. It is far smaller than any error
 * of the shop and far larger than the noise of the arithmetic.
 */
const CAUSE_STEP = 0.01;

/**
 * The sources of error in folding the part. Thickness, K and radius belong to one sheet and one
 * tool, so each has the same error at all folds.
 */
export const foldCauses = (folding: BlankToFold, doubts: Doubts): FoldCause[] => {
  const cause: CauseOf = (name, limit, step, errors, fold) => ({
    name,
    limit,
    step,
    more: foldWithErrors(folding, errors(step)),
    less: foldWithErrors(folding, errors(-step)),
    ...(fold !== undefined && { fold }),
  });
  if (folding.asked.bends.length === 0) return [];
  return [
    cause('sheet thickness', doubts.thicknessMm.limit, CAUSE_STEP, (thicknessMm) => ({
      thicknessMm,
    })),
    cause('the K factor', doubts.kFactor.limit, CAUSE_STEP / 10, (kFactor) => ({ kFactor })),
    // An error of the measured radius changes the K that was found with it.
    cause('the inside radius', doubts.insideRadiusMm.limit, CAUSE_STEP, (insideRadiusMm) => ({
      insideRadiusMm,
      kFactor: insideRadiusMm * doubts.kPerRadius,
    })),
    ...folding.asked.bends.flatMap(({ id }) => causesOfFold(cause, doubts, id)),
  ];
};

type CauseOf = (
  name: CauseName,
  limit: number,
  step: number,
  errors: (by: number) => FoldErrors,
  fold?: string,
) => FoldCause;

/** The sources of error at one fold, independent of those at the others. */
const causesOfFold = (cause: CauseOf, doubts: Doubts, fold: string): FoldCause[] => [
  cause(
    'where the fold lands',
    doubts.landsMm,
    CAUSE_STEP,
    (mm) => ({ lands: { fold, mm } }),
    fold,
  ),
  cause('the bend angle', doubts.angleDeg, CAUSE_STEP, (deg) => ({ angle: { fold, deg } }), fold),
  ...(doubts.spreadMm === 0
    ? []
    : [
        cause(
          'how one bend differs from the next',
          doubts.spreadMm,
          CAUSE_STEP,
          (allowanceMm) => ({ own: new Map([[fold, { allowanceMm }]]) }),
          fold,
        ),
      ]),
];

/**
 * The part with the errors that are known beforehand, such as the mean error of the thickness.
 */
export const expectedPart = (folding: BlankToFold, doubts: Doubts): FoldedFile =>
  foldWithErrors(folding, {
    thicknessMm: doubts.thicknessMm.mean,
    insideRadiusMm: doubts.insideRadiusMm.mean,
    own: doubts.shifts,
  });
