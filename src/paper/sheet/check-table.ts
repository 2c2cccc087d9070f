import type { Fold, Part } from '../../model/part.ts';
import type { PartResult } from '../../contract/part.ts';
import type { FoundMeasure } from '../../contract/proof.ts';
import { calledOf } from '../../model/hole-names.ts';
import { FOLDING } from '../../data/tolerances/accuracy.ts';
import { allowedOff, decimalsBeside } from '../../data/tolerances/allowed.ts';
import type { GeneralClass } from '../../data/tolerances/general.ts';
import { shorterLegMm } from '../../fold/shorter-leg.ts';
import { figure } from '../../text/figures.ts';
import { grouped } from '../../text/grouped.ts';
import type { Printed } from '../../text/printed.ts';
import type { TableBlock } from './content.ts';

export interface ChecksOf {
  readonly result: Pick<PartResult, 'proof'>;
  readonly part: Part;
  /** Kind of machine it is folded on; by hand it comes out as on a folder. */
  readonly machine: keyof typeof FOLDING;
  /** Class of ISO 2768-1. */
  readonly grade: GeneralClass;
  readonly print: Printed;
}

/**
 * What is to be measured on the finished part, with boxes to tick: what its inputs asked for, and
 * the angle of every fold. Measures of one name and length are one row.
 */
export const checkTable = (of: ChecksOf): TableBlock[] => {
  const rows = [...lengthRows(of), ...angleRows(of)];
  if (rows.length === 0) return [];
  return [
    {
      kind: 'table',
      title: 'To be measured on the finished part',
      columns: [
        { name: 'Measure', isText: true },
        { name: `Asked, ${of.print.word} or °` },
        { name: 'Allowed' },
        { name: 'Measured', isBox: true },
      ],
      rows,
      across: rows.length > 6 ? 2 : 1,
      captions: [
        `Allowed: class ${of.grade} of ISO 2768-1, but where a fold counts no less than it can be made to (${figure(FOLDING[of.machine].landsMm.value)} mm, ${figure(FOLDING[of.machine].angleDeg.value)}°: common practice).`,
      ],
    },
  ];
};

const lengthRows = ({ result: { proof }, machine, grade, print }: ChecksOf): string[][] => {
  const asked = (proof?.measures ?? []).filter(
    (m) => m.input !== undefined && m.atLeast !== true && m.askedMm > 0,
  );
  const same = ({ name, askedMm }: FoundMeasure): string =>
    `${baseName(name)} ${figure(askedMm, 3)}`;
  return grouped(asked, same).map((group) => {
    const [first] = group as [FoundMeasure];
    const isFolded = group.some(({ between }) =>
      between.some(({ kind }) => kind === 'mould' || kind === 'face'),
    );
    const off = allowedOff('length', first.askedMm, grade, isFolded ? FOLDING[machine] : undefined);
    return [
      group.length > 1 ? placesText(group) : calledOf(first),
      print.tape(first.askedMm, decimalsBeside(off)),
      off === null ? '' : `± ${print.machine(off)}`,
      '',
    ];
  });
};

/** `lap, 2 places`; `boltHole, 2 places (h1, h2)`. */
const placesText = (group: readonly FoundMeasure[]): string => {
  const holes = [...new Set(group.flatMap((m) => m.holes ?? []))];
  const what = `${baseName((group[0] as FoundMeasure).name)}, ${group.length} places`;
  return holes.length === 0 ? what : `${what} (${holes.join(', ')})`;
};

/** `lap (2)`: the second place of the same measure. */
const baseName = (name: string): string => name.replace(/ \(\d+\)$/, '');

const angleRows = ({ result: { proof }, part, machine, grade }: ChecksOf): string[][] =>
  (proof?.angles ?? []).flatMap(({ fold: id, askedDeg, input }) => {
    const fold = part.folds.find((f) => f.id === id);
    if (fold === undefined || input !== undefined || isRolled(fold) || askedDeg < LEAST_FACES_DEG)
      return [];
    const off = allowedOff('angle', shorterLegMm(part, fold), grade, FOLDING[machine]);
    return [
      [
        `fold ${fold.id}, between the faces`,
        `${figure(askedDeg, 1)}°`,
        off === null ? '' : `± ${figure(off, 1)}°`,
        '',
      ],
    ];
  });

/** A bend that is rolled lies on its middle surface, and no square goes into it. */
const isRolled = ({ midSurface }: Fold): boolean => midSurface === true;

/** Between faces that lie nearer together than this, as in a hem, nothing is measured, degrees. */
const LEAST_FACES_DEG = 5;
