import { bendFigures } from '../bending/bend.ts';
import { ruleRefusal } from '../bending/rule.ts';
import type { CommonValues } from '../forms/common.ts';
import type { Finding } from '../model/finding.ts';

/** A strip of known flat length with one fold in its middle, all in mm. */
export interface MiddleFold {
  /** Length of each of the two panels, on its mould lines. */
  readonly legMm: number;
  readonly setbackMm: number;
  readonly allowanceMm: number;
  /** How much longer the two legs together are than the blank, by the rule. */
  readonly deductionMm: number;
}

/**
 * The legs that make a blank of just `flatMm` when it is folded in the middle: the flat is the sum
 * of the legs less the deduction (the definition of the deduction in `bend.ts`). `refusal` says why
 * the rule has no figures.
 */
export function middleFold(
  values: CommonValues,
  flatMm: number,
  angleDeg: number,
): MiddleFold | { readonly refusal: Finding } {
  const bend = { thicknessMm: values.thicknessMm, insideRadiusMm: values.insideRadiusMm, angleDeg };
  const refusal = ruleRefusal(values.rule, bend);
  if (refusal !== undefined) return { refusal };
  const { setbackMm, allowanceMm, deductionMm } = bendFigures(values.rule, bend, values.measure);
  return { legMm: (flatMm + deductionMm) / 2, setbackMm, allowanceMm, deductionMm };
}
