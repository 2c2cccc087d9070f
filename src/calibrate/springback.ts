import { middleOf, ONE_IN_THOUSAND, scatterOf } from '../statistics/middle.ts';
import { NORMAL95, student95 } from '../statistics/student.ts';
import type { MeasuredStrip } from './strip.ts';
import type { Estimate } from '../contract/calibration.ts';

/** The share of a bend that stays, and the strips whose two angles do not agree with the others. */
export interface SpringbackFit {
  readonly estimate: Estimate;
  /** How much smaller the angle at the stop was than the other strips suggest, degrees. */
  readonly outliers: readonly { readonly strip: number; readonly offDeg: number }[];
}

/** Error of reading: half a degree at a right angle. */
const READING = 0.5 / 90;

/**
 * Ratio of the bend angle that stayed to the angle at the stop: the mean over the strips that lie
 * within the scatter about the median. Fewer than three strips cannot be compared. `undefined` when
 * no strip has both angles.
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
  // One strip alone has no spread.
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
