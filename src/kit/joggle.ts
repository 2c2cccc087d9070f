import { setbackMm } from '../bending/setback.ts';
import { sinDeg } from '../geometry/degrees.ts';
import { along, leftOf, sub, unit } from '../geometry/vec2.ts';
import type { FoldLine } from '../forms/fold-lines.ts';
import type { Measure } from '../model/part.ts';

/**
 * Length of the web between the two equal and opposite bends of a joggle, from mould line to mould
 * line, mm. A face of the web runs offset / sin A from one crossing to the next; the mould lines
 * lie on opposite faces, which shifts one against the other by t tan(A/2) (geometry of parallel
 * lines). At 90 degrees and outside measure that is the offset over both faces.
 */
export const joggleWebMm = (
  offsetMm: number,
  angleDeg: number,
  thicknessMm: number,
  measure: Measure,
): number => {
  const shift = setbackMm(angleDeg, 0, thicknessMm, 'outside');
  return offsetMm / sinDeg(angleDeg) + (measure === 'outside' ? shift : -shift);
};

/** A fold line of a plate: the second fold of joggle `2` is `2b`. */
export interface NamedFoldLine extends FoldLine {
  readonly id: string;
  /** Its name in findings, `fold line 2 of folds`, and the input it came from. */
  readonly called: string;
  readonly input: string;
}

/** A fold line with its place in the order in which the lines were written, from 1. */
export interface WrittenFoldLine extends FoldLine {
  readonly written: number;
}

/**
 * Every fold to be made: a joggle's second fold runs beside its first, on its left, and turns the
 * metal back. The ids count the lines in the order given here; findings name them as they were
 * written.
 */
export const withJoggles = (
  lines: readonly WrittenFoldLine[],
  thicknessMm: number,
  measure: Measure,
): readonly NamedFoldLine[] =>
  lines.flatMap(({ written, ...line }, index): NamedFoldLine[] => {
    const named = (second: 'b' | '') => ({
      ...line,
      id: `${index + 1}${second}`,
      called: `fold line ${written}${second} of folds`,
      input: 'folds',
    });
    const first = named('');
    if (line.joggleMm === undefined) return [first];
    const aside = leftOf(unit(sub(line.to, line.from)));
    const web = joggleWebMm(line.joggleMm, line.angleDeg, thicknessMm, measure);
    const [from, to] = [along(line.from, aside, web), along(line.to, aside, web)];
    return [first, { ...named('b'), from, to, direction: line.direction === 'up' ? 'down' : 'up' }];
  });
