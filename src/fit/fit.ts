import { type Instrument, READINGS } from '../data/tolerances/accuracy.ts';
import type { GeneralClass } from '../data/tolerances/general.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Asked } from '../contract/asked.ts';
import { fitBolts } from './bolts.ts';
import { blankToFold } from './fold-with-errors.ts';
import { foldCauses } from './causes.ts';
import { doubtsOf, type Making } from './doubts.ts';
import { type AskAgain, inputDoubts, type MeasuredInput } from './inputs.ts';
import { fitMeasures } from './measures.ts';
import type { FitResult } from '../contract/fit.ts';
import { withSpacings } from './spacings.ts';

export type { AskAgain, MeasuredInput } from './inputs.ts';
export type { Making } from './doubts.ts';

export interface FitQuestion {
  /** What the part is asked to measure, its blank, and where and of what it is made. */
  readonly asked: Asked;
  readonly flat: FlatPattern;
  readonly making: Making;
  /**
   * The lengths and angles that were measured on the job; the sheet and the bends are none of them.
   */
  readonly inputs: readonly MeasuredInput[];
  readonly askAgain: AskAgain;
  /**
   * What inputs were measured with that do not say how sure they are; taken as they are given when
   * left out.
   */
  readonly measuredWith?: Instrument | undefined;
  readonly tolerance?: GeneralClass | undefined;
}

/**
 * How well a part is likely to fit: linear, by derivatives of the folded part, after the law of
 * propagation of uncertainty (JCGM 100:2008, 5.1.2) with limits taken as 95 percent of a normal
 * distribution (4.3.4). Causes are taken as independent; what may be off of one sheet or one tool
 * is off alike at all folds. Pure.
 */
export const fitOf = ({
  asked: proved,
  flat,
  making,
  inputs,
  askAgain,
  measuredWith,
  tolerance,
}: FitQuestion): FitResult => {
  const asked = withSpacings(proved, flat);
  const folding = blankToFold(asked);
  if (folding === undefined) throw new Error(`the fold lines of ${flat.name} cross`);
  const doubts = doubtsOf(making);
  const causes = foldCauses(folding, doubts);
  const measured = inputDoubts(asked, inputs, measuredWith, (input, by) =>
    askedAgain(askAgain(input, by)),
  );
  const otherMm = measuredWith === undefined ? 0 : READINGS[measuredWith].lengthMm.value;
  const bolts = fitBolts(folding, causes, flat, { cutMm: doubts.cutMm, otherMm });
  return {
    measures: fitMeasures({ folding, doubts, causes, inputs: measured.doubts, grade: tolerance }),
    bolts,
    basis: [
      ...measuringBasis(measuredWith),
      ...doubts.basis,
      ...(bolts.length === 0
        ? []
        : [
            `Bolts: the part can be pushed about, and bolts pull faces together that stand off by an angle; the other side's holes are ${measuredWith === undefined ? 'true' : `within +-${otherMm} mm`}.`,
          ]),
      ...measured.unsettled.map(
        (name) => `An error of ${name} gives the part another shape and is left out.`,
      ),
    ],
  };
};

const askedAgain = (again: ReturnType<AskAgain>): Asked | undefined =>
  again && withSpacings(again.asked, again.flat);

const measuringBasis = (measuredWith: Instrument | undefined): string[] => {
  if (measuredWith === undefined)
    return ['Inputs are taken as they are given, but for those that say how far they may be off.'];
  const { lengthMm, angleDeg } = READINGS[measuredWith];
  return [
    `Lengths measured with the ${measuredWith}: +-${lengthMm.value} mm, ${lengthMm.source}. Angles: +-${angleDeg.value} degrees, ${angleDeg.source}.`,
  ];
};
