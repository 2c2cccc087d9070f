import { perimeter } from '../../geometry/measure.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { CommonValues } from '../../forms/common.ts';
import type { FlatBend, FlatCutout, FlatPattern } from '../../model/flat.ts';
import type { Measure } from '../../model/part.ts';
import { type Datum, type DatumLine, fromDatum } from '../../paper/sizes/datum.ts';
import { keyedHoles } from '../../paper/sizes/hole-keys.ts';
import type { BendResult, BlankResult, DatumResult } from '../../contract/part.ts';
import { M3_PER_MM3 } from '../../text/units.ts';

/** Figures of the blank, from its flat pattern and the holes that are cut. */
export function blankResult(
  flat: FlatPattern,
  cutHoles: readonly FlatCutout[],
  datum: Datum,
  { thicknessMm, material }: Pick<CommonValues, 'thicknessMm' | 'material'>,
): BlankResult {
  return {
    widthMm: flat.widthMm,
    heightMm: flat.heightMm,
    areaMm2: flat.areaMm2,
    cutLengthMm: cutHoles.reduce((sum, hole) => sum + holePerimeter(hole), perimeter(flat.outline)),
    pierces: 1 + cutHoles.length,
    massKg: flat.areaMm2 * thicknessMm * material.densityKgM3.value * M3_PER_MM3,
    datum: { x: datumLine(datum.x), y: datumLine(datum.y) },
    holes: keyedHoles(flat).map(({ key, kind, size, centre, hole }) => ({
      name: key,
      kind,
      size,
      panel: hole.panel,
      inputs: hole.inputs ?? [],
      at: withoutNoise(centre),
      fromDatum: withoutNoise(fromDatum(datum, centre)),
    })),
  };
}

const datumLine = ({ kind, name, at, towards }: DatumLine): DatumResult => ({
  kind,
  name,
  at: withoutNoise(at),
  towards: withoutNoise(towards),
});

const holePerimeter = (hole: FlatCutout): number =>
  hole.kind === 'round' ? Math.PI * hole.diameterMm : perimeter(hole.loop);

export const bendResult = (bend: FlatBend, measure: Measure): BendResult => ({
  id: bend.id,
  angleDeg: bend.angleDeg,
  direction: bend.direction,
  insideRadiusMm: bend.insideRadiusMm,
  kFactor: bend.kFactor,
  allowanceMm: bend.allowanceMm,
  setbackMm: bend.setbackMm,
  deductionMm: bend.deductionMm,
  measure,
  rule: bend.rule,
  centreLine: [withoutNoise(bend.centreLine[0]), withoutNoise(bend.centreLine[1])],
});

/** The point rounded to a millionth of a millimetre, since no figure says more; -0 becomes 0. */
const withoutNoise = ([x, y]: Vec2): Vec2 => [
  Math.round(x * 1e6) / 1e6 + 0,
  Math.round(y * 1e6) / 1e6 + 0,
];
