import { middleOf, ONE_IN_THOUSAND, scatterOf } from '../statistics/middle.ts';
import { NORMAL95, student95 } from '../statistics/student.ts';
import type { MeasuredStrip } from './strip.ts';
import type { Estimate } from '../contract/calibration.ts';

/** The share of a bend that stays, with the strips whose two angles do not go with the others. */
export interface SpringbackFit {
  readonly estimate: Estimate;
  /** How much less the stop was than the others say, degrees. */
  readonly outliers: readonly { readonly strip: number; readonly offDeg: number }[];
}

/** Half a degree of reading at a right angle. */
const READING = 0.5 / 90;

/**
 * Bend angle that stayed over the angle at the stop: the mean over the strips that lie within what
 * the middle one and the scatter about it allow. Less than three have nothing to be compared with.
 * `undefined` when no strip has both.
 */
export function springbackOf(strips: readonly MeasuredStrip[]): SpringbackFit | undefined {
  const all = strips.flatMap(({ number, angleDeg, stopAtDeg }) =>
    stopAtDeg === undefined
      ? []
      : [{ strip: number, angleDeg, stopAtDeg, factor: angleDeg / stopAtDeg }],
  );
  if (all.length === 0) return undefined;
  const middle = middleOf(all.map((s) => s.factor));
  const scatter = Math.max(READING, scatterOf(all.map((s) => Math.abs(s.factor - middle))));
  const kept =
    all.length < 3
      ? all
      : all.filter(({ factor }) => Math.abs(factor - middle) <= ONE_IN_THOUSAND * scatter);
  const value = kept.reduce((sum, s) => sum + s.factor, 0) / kept.length;
  const freedom = kept.length - 1;
  const spread = Math.sqrt(
    kept.reduce((sum, s) => sum + (s.factor - value) ** 2, 0) / Math.max(1, freedom),
  );
  // One strip has no spread of its own.
  const standardError = freedom === 0 ? READING : spread / Math.sqrt(kept.length);
  return {
    estimate: {
      value,
      standardError,
      within95: standardError * (freedom === 0 ? NORMAL95 : student95(freedom)),
    },
    outliers: all
      .filter((s) => !kept.includes(s))
      .map(({ strip, angleDeg, stopAtDeg }) => ({ strip, offDeg: angleDeg / value - stopAtDeg })),
  };
}
