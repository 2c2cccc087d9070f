/** Classes of ISO 2768-1: fine, medium, coarse, very coarse. */
export const GENERAL_CLASSES = ['f', 'm', 'c', 'v'] as const;

export type GeneralClass = (typeof GENERAL_CLASSES)[number];

type Row = readonly [
  upTo: number,
  f: number | null,
  m: number | null,
  c: number | null,
  v: number | null,
];

/**
 * ISO 2768-1, table 1: lengths, +- mm, from 0.5 mm on; upper ends of the ranges are inclusive. Read
 * in two copies; class c under 6 mm is from memory of the edition of 1989.
 */
const LENGTHS: readonly Row[] = [
  [3, 0.05, 0.1, 0.2, null],
  [6, 0.05, 0.1, 0.3, 0.5],
  [30, 0.1, 0.2, 0.5, 1],
  [120, 0.15, 0.3, 0.8, 1.5],
  [400, 0.2, 0.5, 1.2, 2.5],
  [1000, 0.3, 0.8, 2, 4],
  [2000, 0.5, 1.2, 3, 6],
  [4000, null, 2, 4, 8],
];

/** ISO 2768-1, table 2: external radii, +- mm. */
const RADII: readonly Row[] = [
  [3, 0.2, 0.2, 0.4, 0.4],
  [6, 0.5, 0.5, 1, 1],
  [Infinity, 1, 1, 2, 2],
];

/** ISO 2768-1, table 3: angles, +- minutes of arc, by the length of the shorter leg. */
const ANGLES: readonly Row[] = [
  [10, 60, 60, 90, 180],
  [50, 30, 30, 60, 120],
  [120, 20, 20, 30, 60],
  [400, 10, 10, 15, 30],
  [Infinity, 5, 5, 10, 20],
];

/** Lengths under this, mm, have no general tolerance. */
const LEAST_TOLERANCED_MM = 0.5;

/**
 * How far a length, a radius (mm), or an angle (degrees, by its shorter leg in mm) may be off,
 * either way; `null` where the standard has no figure.
 */
export const generalTolerance = (
  of: 'length' | 'radius' | 'angle',
  sizeMm: number,
  grade: GeneralClass,
): number | null => {
  if (of === 'angle') {
    const minutes = lookUp(ANGLES, sizeMm, grade);
    return minutes === null ? null : minutes / 60;
  }
  return sizeMm < LEAST_TOLERANCED_MM
    ? null
    : lookUp(of === 'length' ? LENGTHS : RADII, sizeMm, grade);
};

const lookUp = (rows: readonly Row[], size: number, grade: GeneralClass): number | null => {
  const row = rows.find(([upTo]) => size <= upTo);
  return row === undefined ? null : (row[1 + GENERAL_CLASSES.indexOf(grade)] as number | null);
};
