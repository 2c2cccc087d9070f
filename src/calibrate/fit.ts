import type { LeastSquares } from '../statistics/least-squares.ts';
import { chiSquare99 } from '../statistics/chi-square.ts';
import { solveOf } from '../statistics/resistant.ts';
import { NORMAL95, student95 } from '../statistics/student.ts';
import { deductionOf, type Reading, readingsOf } from './readings.ts';
import { springbackOf, type SpringbackFit } from './springback.ts';
import { type MeasuredStrip, type Readings, USUAL_READINGS } from './strip.ts';
import { type Parted, partReadings } from './suspects.ts';
import type { BendFit, DeductionAt, Estimate, Outlier } from '../contract/calibration.ts';

/**
 * Why strips give no fit. `open`: they do not separate K from the radius. `contradiction`: some
 * are wrong, and too few are right to say which. `impossible`: no bend has such a K.
 */
export interface NoFit {
  readonly why: 'open' | 'contradiction' | 'impossible';
  /** Numbers of the strips that contradict each other. */
  readonly strips: readonly number[];
  /** The K that was found, which no bend has. */
  readonly kFactor?: number;
}

export const isFit = (found: BendFit | NoFit): found is BendFit => !('why' in found);

/** Standard error of K beyond which the strips do not determine it. */
const LARGEST_K_ERROR = 0.15;

/** Number of unknowns: K and radius. */
const UNKNOWNS = 2;

/**
 * The fewest degrees of freedom with which the scatter of the strips is a better estimate of their
 * error than the stated errors of reading are.
 */
export const LEAST_FREEDOM = 3;

/**
 * K and inside radius from strips of one sheet, folded with one tool. Strips bent to different
 * angles separate the two, and so do readings of the radius. Readings that do not agree with the
 * others are found first and left out (`partReadings`); the rest is fitted by least squares.
 */
export function fitBends(
  strips: readonly MeasuredStrip[],
  errors: Readings = USUAL_READINGS,
): BendFit | NoFit {
  const readings = readingsOf(strips, errors);
  const parted = partReadings(readings, strips);
  const fit = parted && solveOf(readings, parted.kept);
  if (parted === undefined || fit === undefined) return noFit(parted, readings);
  const freedom = parted.kept.length - UNKNOWNS;
  const isMisfit = freedom > 0 && freedom * fit.misfit ** 2 > chiSquare99(freedom);
  const [kFactor, insideRadiusMm] = [estimate(fit, 1, freedom), estimate(fit, 0, freedom)];
  const isOpen = kFactor.standardError > LARGEST_K_ERROR;
  // With so few strips to compare, a wrong reading may belong to one strip as well as to another.
  if (isMisfit && (isOpen || freedom < LEAST_FREEDOM))
    return { why: 'contradiction', strips: strips.map((s) => s.number) };
  if (isOpen) return noFit(parted, readings);
  if (kFactor.value <= 0 || kFactor.value >= 1)
    return { why: 'impossible', strips: [], kFactor: kFactor.value };
  return whole({ strips, readings, parted, fit, freedom, isMisfit, kFactor, insideRadiusMm });
}

const noFit = (parted: Parted | undefined, readings: readonly Reading[]): NoFit => {
  const wrong = parted === undefined ? [] : [...parted.outliers, ...parted.unsure.flat()];
  return {
    why: wrong.length > 0 ? 'contradiction' : 'open',
    strips: [...new Set(wrong.map((i) => (readings[i] as Reading).strip))].toSorted(
      (a, b) => a - b,
    ),
  };
};

interface Solved {
  readonly strips: readonly MeasuredStrip[];
  readonly readings: readonly Reading[];
  readonly parted: Parted;
  readonly fit: LeastSquares;
  readonly freedom: number;
  readonly isMisfit: boolean;
  readonly kFactor: Estimate;
  readonly insideRadiusMm: Estimate;
}

const whole = ({
  strips,
  readings,
  parted,
  fit,
  freedom,
  isMisfit,
  kFactor,
  insideRadiusMm,
}: Solved): BendFit => {
  const used = parted.kept.map((i) => readings[i] as Reading).filter((r) => r.of === 'legs');
  const kept = strips.filter((s) => used.some((r) => r.strip === s.number));
  const springback = springbackOf(strips);
  const angles = kept.map((s) => s.angleDeg);
  const outlier = (i: number): Outlier => {
    const { strip, of, row, right } = readings[i] as Reading;
    return {
      strip,
      of,
      offMm: row.reduce((sum, v, j) => sum + v * (fit.x[j] as number), 0) - right,
    };
  };
  const usual = Math.sqrt(used.reduce((sum, r) => sum + r.sigma ** 2, 0) / used.length);
  const [[a = 0, b = 0] = [], [, c = 0] = []] = fit.covariance;
  return {
    kFactor,
    insideRadiusMm,
    correlation: b / Math.sqrt(a * c),
    ...(springback !== undefined && { springback: springback.estimate }),
    outliers: [...parted.outliers.map(outlier), ...stopOutliers(springback)],
    unsure: parted.unsure.map((group) => group.map(outlier)),
    used: kept.length,
    anglesDeg: [Math.min(...angles), Math.max(...angles)],
    deductions: deductionsOf(kept),
    squareMm: squareOf(fit, kept, freedom),
    misfit: freedom === 0 ? null : fit.misfit,
    isMisfit,
    spreadMm: isMisfit ? usual * Math.sqrt(fit.misfit ** 2 - 1) : 0,
    toHalve: 3 * kept.length,
  };
};

/**
 * BD = 2 (r + t) - pi / 2 (r + K t) is linear in r and K, so its error follows from their
 * covariance.
 */
const squareOf = (
  fit: LeastSquares,
  strips: readonly MeasuredStrip[],
  freedom: number,
): Estimate => {
  const t = strips.reduce((sum, s) => sum + s.thicknessMm, 0) / strips.length;
  const [byRadius, byK] = [2 - Math.PI / 2, (-Math.PI / 2) * t];
  const [[a = 0, b = 0] = [], [, c = 0] = []] = fit.covariance;
  const [r = 0, k = 0] = fit.x;
  return estimateOf(
    2 * t + byRadius * r + byK * k,
    Math.sqrt(Math.max(0, byRadius ** 2 * a + 2 * byRadius * byK * b + byK ** 2 * c)),
    fit.misfit,
    freedom,
  );
};

const stopOutliers = (springback: SpringbackFit | undefined): Outlier[] =>
  (springback?.outliers ?? []).map(({ strip, offDeg }) => ({ strip, of: 'stop', offMm: offDeg }));

/** Angles that differ by no more than this, degrees, belong together. */
const SAME_ANGLE_DEG = 3;

const deductionsOf = (strips: readonly MeasuredStrip[]): DeductionAt[] => {
  const groups: MeasuredStrip[][] = [];
  for (const strip of strips.toSorted((a, b) => a.angleDeg - b.angleDeg)) {
    const last = groups.at(-1);
    if (last?.[0] !== undefined && strip.angleDeg - last[0].angleDeg <= SAME_ANGLE_DEG)
      last.push(strip);
    else groups.push([strip]);
  }
  const mean = (group: readonly MeasuredStrip[], figure: (s: MeasuredStrip) => number): number =>
    group.reduce((sum, s) => sum + figure(s), 0) / group.length;
  return groups.map((group) => ({
    angleDeg: mean(group, (s) => s.angleDeg),
    deductionMm: mean(group, deductionOf),
    strips: group.length,
  }));
};

const estimate = ({ x, covariance, misfit }: LeastSquares, i: number, freedom: number): Estimate =>
  estimateOf(x[i] as number, Math.sqrt((covariance[i] as number[])[i] as number), misfit, freedom);

const estimateOf = (value: number, stated: number, misfit: number, freedom: number): Estimate => {
  const standardError = freedom >= LEAST_FREEDOM ? stated * misfit : stated;
  return {
    value,
    standardError,
    within95: standardError * (freedom >= LEAST_FREEDOM ? student95(freedom) : NORMAL95),
  };
};
