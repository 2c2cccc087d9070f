import { figure } from '../text/figures.ts';
import type { BendRule } from '../model/bend-rule.ts';
import type { Measure } from '../model/part.ts';
import { type Bend, bendFigures } from './bend.ts';
import { HEM_K, teardropOf } from './hem.ts';
import { goesByHem } from './meaning.ts';
import { DIN6935_LEAST_BEND_DEG, din6935K } from './rules/din6935.ts';
import { MACHINERYS_SHARE } from './rules/machinerys.ts';

const f = (value: number): string => figure(value, 4);

/**
 * The sums of one bend as a person would write them on paper: letters, figures, result, one line
 * for each sum.
 */
export const workedSums = (rule: BendRule, bend: Bend, measure: Measure): string[] => {
  const figures = bendFigures(rule, bend, measure);
  return [
    `by rule ${figures.rule}: bend of ${f(bend.angleDeg)} deg, thickness t = ${f(bend.thicknessMm)}, inside radius r = ${f(bend.insideRadiusMm)} (mm)`,
    ...lengthSums(rule, bend, figures.allowanceMm, figures.kFactor),
    setbackSum(bend, measure, figures.setbackMm),
    `deduction of ${measure} dimensions BD = 2 s - BA = 2 x ${f(figures.setbackMm)} - ${f(figures.allowanceMm)} = ${f(figures.deductionMm)}`,
    `blank = leg + leg - BD; K factor of this bend ${f(figures.kFactor)}`,
  ];
};

const lengthSums = (rule: BendRule, bend: Bend, allowance: number, kFactor: number): string[] => {
  const { thicknessMm: t, insideRadiusMm: r, teardropMm } = bend;
  const isOwn = goesByHem(rule, bend);
  const kText = isOwn ? [`K = ${HEM_K} for a hem (common practice): the middle of the sheet`] : [];
  if (teardropMm === undefined)
    return isOwn
      ? [...kText, arcSum(bend, HEM_K, allowance)]
      : allowanceSums(rule, bend, allowance, kFactor);
  const { pastDeg, straightMm } = teardropOf(r, t, teardropMm);
  const loop = allowance - straightMm + (teardropMm - r - t);
  const turned = 180 + pastDeg;
  const round = (loop * 180) / (Math.PI * turned);
  return [
    ...kText,
    `the loop turns 180 + ${f(pastDeg)} deg, then runs straight for ${f(straightMm)} until its edge is down, ${f(teardropMm)} from its outermost point`,
    `loop = pi / 180 x ${f(turned)} x ${f(round)} = ${f(loop)}`,
    `allowance BA = loop + straight - (depth - r - t) = ${f(loop)} + ${f(straightMm)} - ${f(teardropMm - r - t)} = ${f(allowance)}`,
  ];
};

const setbackSum = (
  { angleDeg, insideRadiusMm: r, thicknessMm: t }: Bend,
  measure: Measure,
  s: number,
): string => {
  const [letters, numbers] =
    measure === 'outside' ? ['(r + t)', `(${f(r)} + ${f(t)})`] : ['r', f(r)];
  if (angleDeg > 90)
    return `setback s = ${letters} = ${numbers} = ${f(s)} (over 90 deg: to the outermost tangent of the bend)`;
  return `setback s = ${letters} x tan(A / 2) = ${numbers} x tan ${f(angleDeg / 2)} = ${f(s)}`;
};

const arcSum = (
  { angleDeg: a, insideRadiusMm: r, thicknessMm: t }: Bend,
  k: number,
  allowance: number,
): string =>
  `allowance BA = pi / 180 x A x (r + K t) = 0.017453 x ${f(a)} x (${f(r)} + ${f(k)} x ${f(t)}) = ${f(allowance)}`;

const allowanceSums = (
  rule: BendRule,
  bend: Bend,
  allowance: number,
  kFactor: number,
): string[] => {
  const { angleDeg: a, insideRadiusMm: r, thicknessMm: t } = bend;
  const arc = (k: number): string => arcSum(bend, k, allowance);
  switch (rule.id) {
    case 'din6935': {
      if (a < DIN6935_LEAST_BEND_DEG)
        return [`allowance BA = 2 s = ${f(allowance)} (DIN 6935: v = 0 under 15 deg of bend)`];
      const k = din6935K(r, t);
      return [
        `k = 0.65 + 0.5 lg(r / t), between 0 and 1 = ${f(k)} (DIN 6935); K = k / 2 = ${f(k / 2)}`,
        arc(k / 2),
      ];
    }
    case 'faa':
      return [
        `allowance BA = (0.01743 r + 0.0078 t) x A = (0.01743 x ${f(r)} + 0.0078 x ${f(t)}) x ${f(a)} = ${f(allowance)}`,
      ];
    case 'mh1':
    case 'mh2':
    case 'mh3': {
      const share = MACHINERYS_SHARE[rule.id];
      return [
        `allowance BA = (${share} t + 1.57 r) x A / 90 = (${share} x ${f(t)} + 1.57 x ${f(r)}) x ${f(a)} / 90 = ${f(allowance)}`,
      ];
    }
    case 'k':
      return [arc(rule.k)];
    case 'measured':
      return [`K = ${f(kFactor)} from the shop's own bends`, arc(kFactor)];
  }
};
