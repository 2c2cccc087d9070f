import { wholeUp, LITRES_PER_MM3 } from '../../src/template.ts';

/** How a tank is divided by baffles of one thickness; all lengths along the tank, mm. */
export interface Bays {
  readonly count: number;
  /** Clear length of each bay; all are alike. */
  readonly bayMm: number;
  /** Distance of each baffle's near face from the end at which counting begins. */
  readonly stationsMm: readonly number[];
  readonly thicknessMm: number;
}

/**
 * The fewest baffles that leave no bay longer than asked, and equal bays between them. `n` baffles
 * of thickness t leave n + 1 bays of (L - n t) / (n + 1), so n is the least whole number not below
 * (L - bay) / (bay + t): a tank of 904 takes two baffles of 2 for bays of 300.
 */
export const baySpacing = (
  tankLengthMm: number,
  longestBayMm: number,
  thicknessMm: number,
): Bays => {
  // The noise of the arithmetic must not cost a baffle.
  return equalBays(
    tankLengthMm,
    Math.max(0, wholeUp((tankLengthMm - longestBayMm) / (longestBayMm + thicknessMm))),
    thicknessMm,
  );
};

/** Bays of equal length between a number of baffles. */
export const equalBays = (tankLengthMm: number, count: number, thicknessMm: number): Bays => {
  const bayMm = (tankLengthMm - count * thicknessMm) / (count + 1);
  const stationsMm = Array.from({ length: count }, (_, i) => (i + 1) * bayMm + i * thicknessMm);
  return { count, bayMm, stationsMm, thicknessMm };
};

/** Start of each bay, measured from the same end. */
export const bayStartsMm = ({ stationsMm, thicknessMm }: Bays): readonly number[] => [
  0,
  ...stationsMm.map((at) => at + thicknessMm),
];

/**
 * Volume of each bay, litres, from the area of the section at a distance from the end, mm2. It is
 * exact where the area changes evenly along the tank, as in a box or a wedge: mean area times
 * length. The volume of flanges is not taken off.
 */
export const bayLitres = (
  bays: Bays,
  areaAtMm2: (fromEndMm: number) => number,
): readonly number[] =>
  bayStartsMm(bays).map(
    (start) =>
      ((areaAtMm2(start) + areaAtMm2(start + bays.bayMm)) / 2) * bays.bayMm * LITRES_PER_MM3,
  );
