import type { BendRule, MeasuredBend } from '../model/bend-rule.ts';
import type { Measure } from '../model/part.ts';
import { HEM_K, hemAllowanceMm, hemFormOf, teardropAllowanceMm, teardropOf } from './hem.ts';
import { goesByHem } from './meaning.ts';
import { ruleText } from './rule.ts';
import { din6935AllowanceMm } from './rules/din6935.ts';
import { faaAllowanceMm } from './rules/faa.ts';
import { kFactorAllowanceMm } from './rules/k-factor.ts';
import { machinerysAllowanceMm } from './rules/machinerys.ts';
import { measuredK } from './rules/measured.ts';
import { setbackMm } from './setback.ts';

/**
 * One bend as the formulas see it; `angleDeg` is the angle that the metal is turned by, 0 to 180.
 */
export interface Bend {
  readonly thicknessMm: number;
  readonly insideRadiusMm: number;
  readonly angleDeg: number;
  /**
   * Depth of a teardrop hem: from its edge to the outermost point of its loop. The bend then counts
   * as one of 180 degrees.
   */
  readonly teardropMm?: number | undefined;
}

/** What one bend comes to. */
export interface BendFigures {
  /** Length of the bend zone in the flat. */
  readonly allowanceMm: number;
  /** Distance from the mould line to the tangent line, on each side. */
  readonly setbackMm: number;
  /** What the sum of the two legs exceeds the blank by: 2 setbacks less the allowance. */
  readonly deductionMm: number;
  /**
   * The K factor that gives this allowance, whatever rule the allowance came from; 0.5 for a bend
   * of no length.
   */
  readonly kFactor: number;
  /**
   * The rule's text, as it is typed. A bend whose length is the hem allowance instead says so:
   * `hem-closed` and the like.
   */
  readonly rule: string;
}

/**
 * Length of the bend zone in the flat, mm. A hem that its rule has no meaning for gets the hem
 * allowance instead (`goesByHem`). A rule that has no figures for some other bend is refused before
 * a part is made (see `ruleProblem`). The shop's own bends throw if they are asked all the same.
 */
export const allowanceMm = (rule: BendRule, bend: Bend): number => {
  if (goesByHem(rule, bend)) return hemAllowanceMm(HEM_K, bend);
  if (bend.teardropMm === undefined) return arcMm(rule, bend);
  if (rule.id === 'measured') return hemAllowanceMm(ownK(rule.rows, bend), bend);
  const { pastDeg, straightMm } = teardropOf(
    bend.insideRadiusMm,
    bend.thicknessMm,
    bend.teardropMm,
  );
  return teardropAllowanceMm(
    bend,
    bend.teardropMm,
    straightMm,
    arcMm(rule, { ...bend, angleDeg: 180 + pastDeg }),
  );
};

/** Length of the arc of a plain bend by its rule, mm. */
const arcMm = (rule: BendRule, bend: Bend): number => {
  switch (rule.id) {
    case 'din6935':
      return din6935AllowanceMm(bend);
    case 'faa':
      return faaAllowanceMm(bend);
    case 'mh1':
    case 'mh2':
    case 'mh3':
      return machinerysAllowanceMm(rule.id, bend);
    case 'k':
      return kFactorAllowanceMm(rule.k, bend);
    case 'measured':
      return kFactorAllowanceMm(ownK(rule.rows, bend), bend);
  }
};

const ownK = (rows: readonly MeasuredBend[], bend: Bend): number => {
  const k = measuredK(rows, bend);
  if (k === undefined) throw new Error('the shop has no measured bends near this one');
  return k;
};

/**
 * Allowance, setback, deduction and K of one bend. The allowance does not depend on the measure.
 */
export const bendFigures = (rule: BendRule, bend: Bend, measure: Measure): BendFigures => {
  const allowance = allowanceMm(rule, bend);
  const setback = setbackMm(bend.angleDeg, bend.insideRadiusMm, bend.thicknessMm, measure);
  return {
    allowanceMm: allowance,
    setbackMm: setback,
    deductionMm: 2 * setback - allowance,
    kFactor:
      bend.angleDeg === 0
        ? 0.5
        : ((allowance * 180) / (Math.PI * bend.angleDeg) - bend.insideRadiusMm) / bend.thicknessMm,
    rule: goesByHem(rule, bend) ? `hem-${hemFormOf(bend)}` : ruleText(rule),
  };
};
