import { middleOf, ONE_IN_THOUSAND, scatterOf } from '../statistics/middle.ts';
import type { MeasuredStrip } from './strip.ts';

/** A strip whose legs differ by another amount than those of the other strips. */
export interface LegsApart {
  readonly strip: number;
  readonly legsMm: readonly [number, number];
  /** Difference of the legs on the other strips, mm. */
  readonly usualMm: number;
}

/**
 * Scatter of a fold's place, as one standard deviation of the difference of the legs, mm: a line
 * brought under the nose by eye lands within half a millimetre either way (common practice), and
 * that counts twice.
 */
const LANDS_MM = 0.5;

/** Legs that differ by more than this share of the strip were meant to differ. */
const MEANT = 0.1;

/**
 * Strips with legs that do not match the others. Strips are folded at the same mark, so the
 * difference of their legs is about the same, and a misread leg shows there whatever the bend is.
 * With fewer than three strips the fold is taken to lie in the middle.
 */
export function legsApart(strips: readonly MeasuredStrip[]): LegsApart[] {
  const apart = strips.map(({ legAMm, legBMm }) => legAMm - legBMm);
  const usualMm = strips.length < 3 ? 0 : middleOf(apart);
  const scatter = Math.max(
    LANDS_MM,
    strips.length < 3 ? 0 : scatterOf(apart.map((d) => Math.abs(d - usualMm))),
  );
  return strips.flatMap(({ number, legAMm, legBMm, flatMm }, i): LegsApart[] => {
    const off = Math.abs((apart[i] as number) - usualMm);
    return off <= ONE_IN_THOUSAND * scatter || off > MEANT * flatMm
      ? []
      : [{ strip: number, legsMm: [legAMm, legBMm], usualMm }];
  });
}
