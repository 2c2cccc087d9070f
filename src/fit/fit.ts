import { type Instrument, READINGS } from '../data/tolerances/accuracy.ts';
import type { GeneralClass } from '../data/tolerances/general.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Asked, AskedMeasure } from '../contract/asked.ts';
import { fitBolts } from './bolts.ts';
import { blankToFold } from './fold-with-errors.ts';
import { foldCauses } from './causes.ts';
import { doubtsOf, type Making } from './doubts.ts';
import { type AskAgain, inputDoubts, type MeasuredInput } from './inputs.ts';
import { fitMeasures } from './measures.ts';
import type { FitResult } from '../contract/fit.ts';
import { holeCalled } from '../model/hole-names.ts';
import { namedBy } from '../measure/asked-holes.ts';
import { distance } from '../geometry/vec2.ts';
import { boltHoles } from './bolt-holes.ts';

export type { AskAgain, MeasuredInput } from './inputs.ts';
export type { Making } from './doubts.ts';

interface FitQuestion {
  /** What the part is asked to measure, its blank, and where it is made and of what. */
  readonly asked: Asked;
  readonly flat: FlatPattern;
  readonly making: Making;
  /**
   * The lengths and angles that were measured on the job, without those of the sheet and the bends.
   */
  readonly inputs: readonly MeasuredInput[];
  readonly askAgain: AskAgain;
  /**
   * The instrument used for inputs that do not state their own accuracy. When it is left out, they
   * are taken as given.
   */
  readonly measuredWith?: Instrument | undefined;
  readonly tolerance?: GeneralClass | undefined;
}

/**
 * How well a part is likely to fit. The calculation is linear, by derivatives of the folded part,
 * after the law of propagation of uncertainty (JCGM 100:2008, 5.1.2), with limits taken as 95
 * percent of a normal distribution (4.3.4). Causes are taken as independent; an error of one sheet
 * or one tool is the same at all folds.
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
            `Bolts: the part can be pushed about, and bolts pull faces together that stand off by an angle; the other side's holes are ${measuredWith === undefined ? 'true' : `within ±${otherMm} mm`}.`,
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
    return ['Inputs are taken as given, except those that say how far they may be off.'];
  const { lengthMm, angleDeg } = READINGS[measuredWith];
  return [
    `Lengths measured with the ${measuredWith}: ±${lengthMm.value} mm, ${lengthMm.source}. Angles: ±${angleDeg.value} degrees, ${angleDeg.source}.`,
  ];
};

/**
 * Also asks for the distance of each bolt hole from the next one on its panel, because that is what
 * another part has to match.
 */
const withSpacings = (asked: Asked, flat: FlatPattern): Asked => {
  const holes = boltHoles(flat);
  const known = new Set(asked.measures.map((m) => m.name));
  const spacings = holes.flatMap((hole, i): AskedMeasure[] => {
    const next = holes.slice(i + 1).find((h) => h.panel === hole.panel && h.meets === hole.meets);
    if (next === undefined) return [];
    const names = namedBy(
      [hole, next].map(({ name: from, key }) => ({
        name: named(from),
        key,
        called: holeCalled({ name: key, from }),
      })),
      ([one, other]) => `${one} to ${other}`,
    );
    const between = [hole, next].map(({ panel, of }) => ({ kind: 'centre' as const, panel, of }));
    return known.has(names.name)
      ? []
      : [{ ...names, askedMm: distance(hole.at, next.at), between, heightMm: 0 }];
  });
  return { ...asked, measures: [...asked.measures, ...spacings] };
};

/** A hole as the proof names it. */
const named = (from: string): string => (/^hole\b/.test(from) ? from : `hole ${from}`);
