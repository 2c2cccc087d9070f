import type { Printed } from '../../text/printed.ts';
import { allowedOff, decimalsBeside } from '../../data/tolerances/allowed.ts';
import type { GeneralClass } from '../../data/tolerances/general.ts';
import { shorterLegMm } from '../../fold/shorter-leg.ts';
import type { ListedMeasure } from '../../paper/draw/blank-page.ts';
import { calledOf } from '../../model/hole-names.ts';
import { figure } from '../../text/figures.ts';
import type { WholePart } from '../made-part.ts';
import { drawable, HELD, offOf } from './space-dimensions.ts';

/**
 * What is to be measured on the finished part, with what it may be off: the general tolerance of a
 * class of ISO 2768-1, angles by the shorter leg of their fold; where a fold counts, no less than
 * a fold can be made to. Figures have no more decimals than their tolerance gives a meaning to.
 */
export const listedMeasures = (
  { part, flat, result: { proof } }: Pick<WholePart, 'part' | 'flat' | 'result'>,
  grade: GeneralClass,
  { tape, machine }: Printed,
): ListedMeasure[] => {
  const angles = proof.angles.flatMap((a): ListedMeasure[] => {
    const fold = part.folds.find(({ id }) => id === a.fold);
    if (a.input !== undefined || fold === undefined) return [];
    // A bend that is rolled lies on its middle surface, and no square goes into it.
    const off =
      fold.midSurface === true ? null : allowedOff('angle', shorterLegMm(part, fold), grade, HELD);
    return [
      {
        name: `${a.name}, between the faces`,
        text: `${figure(a.askedDeg, off === null ? 2 : 1)}°`,
        plusMinus: off === null ? '' : `± ${figure(off, 1)}°`,
      },
    ];
  });
  const lengths = drawable(
    proof.measures.filter((m) => m.input === undefined),
    flat,
  ).map((m): ListedMeasure => {
    const off = offOf(m, grade);
    return {
      name: calledOf(m),
      text: tape(m.askedMm, decimalsBeside(off)),
      plusMinus: off === null ? '' : `± ${machine(off)}`,
    };
  });
  return [...angles, ...lengths];
};
