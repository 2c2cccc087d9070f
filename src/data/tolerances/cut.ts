import type { Sourced } from '../../model/material.ts';
import type { CutterProcess } from '../../model/shop.ts';
import { practice, published } from '../sourced.ts';

/** Upper ends of the ranges of nominal size, mm, not inclusive. */
const SIZES_MM = [3, 10, 35, 125, 315, 1000, 2000, 4000, 6000, 8000] as const;

/** Upper end of the range of thickness, then +- mm for each range of size. */
type Row = readonly [upTo: number, ...limits: (number | null)[]];

/** ISO 9013:2017, tolerance class 1, as transcribed in one place. */
const CLASS_1: readonly Row[] = [
  [1, 0.075, 0.1, 0.1, 0.2, 0.2, 0.3, 0.4, 0.65, 0.9, 1.6],
  [3.15, 0.1, 0.15, 0.2, 0.25, 0.25, 0.35, 0.4, 0.65, 1, 1.75],
  [6.3, 0.2, 0.2, 0.25, 0.25, 0.3, 0.4, 0.45, 0.7, 1.1, 1.9],
  [10, null, 0.25, 0.3, 0.3, 0.35, 0.45, 0.55, 0.75, 1.25, 2.2],
  [15, null, 0.3, 0.35, 0.4, 0.45, 0.55, 0.65, 0.85, 1.5, 2.5],
  [20, null, 0.4, 0.4, 0.45, 0.55, 0.75, 0.85, 1.2, 1.9, 2.8],
  [25, null, 0.45, 0.5, 0.6, 0.7, 0.9, 1.1, 1.6, 2.4, 3.25],
];

/** ISO 9013:2017, tolerance class 2, as transcribed in one place. */
const CLASS_2: readonly Row[] = [
  [1, 0.5, 0.6, 0.6, 0.7, 0.7, 0.8, 0.9, 0.9, null, null],
  [3.15, 0.6, 0.6, 0.7, 0.7, 0.8, 0.9, 1, 1.1, 1.4, 1.4],
  [6.3, 0.7, 0.8, 0.9, 0.9, 1.1, 1.2, 1.3, 1.3, 1.6, 1.6],
  [10, null, 1, 1.1, 1.3, 1.4, 1.5, 1.6, 1.7, 1.9, 2],
  [15, null, 1.8, 1.8, 1.8, 1.9, 2.3, 3, 4.2, 4.3, 4.5],
];

const SOURCE = 'ISO 9013:2017, limit deviations';

/**
 * How far the size of a cut part may be off, either way, mm. Laser is taken as class 1 and plasma
 * as class 2, as usual; the standard does not cover water jets, which are taken as class 1 too.
 * Beyond the table its last figure holds.
 */
export const cutTolerance = (
  process: CutterProcess,
  thicknessMm: number,
  sizeMm: number,
): Sourced<number> => {
  const rows = process === 'plasma' ? CLASS_2 : CLASS_1;
  const [, ...limits] = (rows.find(([upTo]) => thicknessMm <= upTo) ?? rows.at(-1)) as Row;
  const column = SIZES_MM.findIndex((end) => sizeMm < end);
  const from = column < 0 ? limits.length - 1 : column;
  // Thick sheet has no figure for the smallest sizes, and class 2 has none for the largest on thin
  // sheet.
  const value =
    limits[from] ??
    limits.slice(from).find((v) => v !== null) ??
    (limits.findLast((v) => v !== null) as number);
  if (process === 'waterjet')
    return practice(value, `common practice: a water jet as good as class 1 of ${SOURCE}`);
  return published(value, `${SOURCE}, class ${process === 'plasma' ? 2 : 1}`);
};

/**
 * How far the width of a cut strays from what the table allows for, as a share of it. Published
 * ranges of plasma kerfs for one current reach 8 to 16 percent to either side of their middle.
 */
export const KERF_SHARE = practice(
  0.1,
  'common practice: a tenth of the kerf, as published ranges of plasma kerfs for one current are wide',
);
