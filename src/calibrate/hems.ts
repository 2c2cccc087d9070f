import { hemKOf } from '../bending/hem.ts';
import { figure } from '../text/figures.ts';
import { type Finding, stop, warn } from '../model/finding.ts';
import { middleOf, ONE_IN_THOUSAND, scatterOf } from '../statistics/middle.ts';
import { NORMAL95, student95 } from '../statistics/student.ts';
import { LEAST_FREEDOM, type NoFit } from './fit.ts';
import { deductionOf } from './readings.ts';
import { type MeasuredStrip, type Readings, USUAL_READINGS } from './strip.ts';
import type { BendFit, Outlier } from '../contract/calibration.ts';

/**
 * K of hems of one form, from their strips. A hem's radius is half its gap and so is known, which
 * gives each strip a K of its own; the result is the mean of those that lie near the median. Legs
 * are measured to the outermost point of the hem, so the deduction is legs less flat length, as
 * with any bend.
 */
export function fitHems(
  strips: readonly MeasuredStrip[],
  errors: Readings = USUAL_READINGS,
): BendFit | NoFit {
  const all = strips.map((strip): HemStrip => ({
    strip,
    k: hemKOf(bendOf(strip), deductionOf(strip)),
    lost: deductionOf(strip),
  }));
  // The change of K for a millimetre of length.
  const perMm = Math.abs(
    hemKOf(bendOf(strips[0] as MeasuredStrip), 1) - hemKOf(bendOf(strips[0] as MeasuredStrip), 0),
  );
  const stated = Math.sqrt(3) * errors.lengthMm * perMm;
  const kept = agreeing(all, stated);
  if (kept.length < Math.max(1, Math.ceil((all.length + 1) / 2)))
    return { why: 'contradiction', strips: strips.map((s) => s.number) };
  const mean = (of: (s: HemStrip) => number): number =>
    kept.reduce((sum, s) => sum + of(s), 0) / kept.length;
  const [value, lost, radius] = [
    mean((s) => s.k),
    mean((s) => s.lost),
    mean((s) => s.strip.insideRadiusMm ?? 0),
  ];
  if (value <= 0 || value >= 1) return { why: 'impossible', strips: [], kFactor: value };
  const freedom = kept.length - 1;
  const found = Math.sqrt(
    kept.reduce((sum, s) => sum + (s.k - value) ** 2, 0) / Math.max(1, freedom),
  );
  const standardError = Math.max(stated, found) / Math.sqrt(kept.length);
  const within95 =
    standardError * (freedom >= LEAST_FREEDOM && found > stated ? student95(freedom) : NORMAL95);
  return {
    kFactor: { value, standardError, within95 },
    insideRadiusMm: { value: radius, standardError: 0, within95: 0 },
    correlation: 0,
    outliers: all
      .filter((s) => !kept.includes(s))
      .map(({ strip, k }): Outlier => ({
        strip: strip.number,
        of: 'legs',
        offMm: (k - value) / perMm,
      })),
    unsure: [],
    used: kept.length,
    anglesDeg: [180, 180],
    deductions: [{ angleDeg: 180, deductionMm: lost, strips: kept.length }],
    misfit: freedom === 0 ? null : found / stated,
    isMisfit: false,
    spreadMm:
      freedom >= LEAST_FREEDOM && found > 2 * stated
        ? Math.sqrt(found ** 2 - stated ** 2) / perMm
        : 0,
    toHalve: 3 * kept.length,
  };
}

/** A strip, the K that it gives, and its deduction, mm. */
interface HemStrip {
  readonly strip: MeasuredStrip;
  readonly k: number;
  readonly lost: number;
}

/**
 * The strips whose K lies near the median. `stated` is the standard error of one K that comes from
 * reading the strip.
 */
const agreeing = (all: readonly HemStrip[], stated: number): readonly HemStrip[] => {
  const middle = middleOf(all.map((s) => s.k));
  // Two strips do not show how strips scatter: both lie equally far from their median, however far
  // apart they are. The scale is then the error of reading, for the difference of two.
  const scatter =
    all.length === 2
      ? Math.SQRT2 * stated
      : Math.max(stated, scatterOf(all.map((s) => Math.abs(s.k - middle))));
  return all.filter(({ k }) => Math.abs(k - middle) <= ONE_IN_THOUSAND * scatter);
};

const bendOf = ({ thicknessMm, insideRadiusMm = 0, hem, legBMm }: MeasuredStrip) => ({
  thicknessMm,
  insideRadiusMm,
  angleDeg: 180,
  ...(hem === 'teardrop' && { teardropMm: legBMm }),
});

/**
 * Range of K for hems: from the deduction of 0.43 t of common practice, K 0.5, to none at all (US
 * Navy, Steelworker manual), K 0.64, widened by about as much again.
 */
const LIKELY_HEM_K = [0.3, 0.7] as const;

export const hemKRemark = ({ kFactor: { value } }: BendFit): Finding[] =>
  value >= LIKELY_HEM_K[0] && value <= LIKELY_HEM_K[1]
    ? []
    : [
        warn(
          'k-unlikely',
          `K ${figure(value, 3)} is not what hems have: ${LIKELY_HEM_K.join(' to ')} is usual. Check the flat length, and that both legs were measured to the outermost point of the hem.`,
        ),
      ];

export const hemImpossible = (k: number): Finding =>
  stop(
    'k-impossible',
    `They come to K ${figure(k, 3)}, which no hem has. Check the flat length, and that both legs were measured to the outermost point of the hem.`,
  );
