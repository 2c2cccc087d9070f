import {
  gainMm,
  radiusOfGainMm,
  springbackOf,
  type TestBend,
  type TubeSpringback,
} from './springback.ts';

/** A test bend of which the length that was cut and both legs to the corner may have been measured too. */
export interface MeasuredBend extends TestBend {
  readonly cutMm?: number | undefined;
  readonly legsMm?: readonly [number, number] | undefined;
}

/** What test bends tell of a bender with one former. */
export interface BenderFit {
  /** `spreadDeg` is what the bends scatter by, one standard deviation; nothing of two bends. */
  readonly springback: TubeSpringback & { readonly spreadDeg: number | null };
  /** Of bends whose legs were measured: how much shorter the tube was than its legs. */
  readonly gains: readonly BendGain[];
  /** Centre-line radius that goes best with all gains; nothing where none was measured. */
  readonly effectiveRadius: { readonly mm: number; readonly spreadMm: number | null } | null;
}

export interface BendGain {
  /** Which bend, counted from 1. */
  readonly bend: number;
  readonly gainMm: number;
  readonly radiusMm: number;
}

/**
 * Both springback constants and the radius of the finished bend, each with its spread. The radius is
 * that of least squares of the gains, R = sum(g u) / sum(u^2) with u the gain at radius 1: a gain of a
 * sharp bend counts for more than one of a shallow bend, which hardly has any. `undefined` where the
 * angles are one and the same.
 */
export function benderFit(bends: readonly MeasuredBend[]): BenderFit | undefined {
  const springback = springbackOf(bends);
  if (springback === undefined) return undefined;
  const measured = bends.flatMap(({ cutMm, legsMm, stayedDeg }, i) =>
    cutMm === undefined || legsMm === undefined
      ? []
      : [
          {
            bend: i + 1,
            gain: legsMm[0] + legsMm[1] - cutMm,
            unit: gainMm(1, stayedDeg),
            stayedDeg,
          },
        ],
  );
  const square = measured.reduce((sum, { unit }) => sum + unit ** 2, 0);
  const mm = measured.reduce((sum, { gain, unit }) => sum + gain * unit, 0) / square;
  const left = measured.reduce((sum, { gain, unit }) => sum + (gain - mm * unit) ** 2, 0);
  return {
    springback,
    gains: measured.map(({ bend, gain, stayedDeg }) => ({
      bend,
      gainMm: gain,
      radiusMm: radiusOfGainMm(gain, stayedDeg),
    })),
    effectiveRadius:
      measured.length === 0
        ? null
        : {
            mm,
            spreadMm: measured.length < 2 ? null : Math.sqrt(left / (measured.length - 1) / square),
          },
  };
}
