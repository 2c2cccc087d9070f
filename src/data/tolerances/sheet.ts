import type { Material, Sourced } from '../../model/material.ts';
import { fromMemory, practice, published } from '../sourced.ts';

/** How far a sheet may be thinner (below 0) and thicker than ordered, mm. */
export type SheetTolerance = readonly [lower: number, upper: number];

/** Upper end of a range of thickness, inclusive, and +- mm. */
type Row = readonly [upTo: number, limit: number];

/**
 * EN 10131:2006, cold-rolled, yield under 260 MPa, normal tolerance, sheets over 1200 to 1500 mm
 * wide.
 */
const COLD_ROLLED: readonly Row[] = [
  [0.4, 0.04],
  [0.6, 0.04],
  [0.8, 0.05],
  [1, 0.06],
  [1.2, 0.07],
  [1.6, 0.09],
  [2, 0.11],
  [2.5, 0.13],
  [3, 0.15],
];

/**
 * EN 10051, sheet cut from hot-rolled strip, category A (yield up to 300 MPa), over 1200 to 1500 mm
 * wide.
 */
const HOT_ROLLED: readonly Row[] = [
  [2, 0.19],
  [2.5, 0.21],
  [3, 0.22],
  [4, 0.24],
  [5, 0.26],
  [6, 0.28],
];

/** EN 10051: factor for the next category, yield over 300 to 360 MPa (the range from memory). */
const CATEGORY_B = 1.15;
const CATEGORY_A_MPA = 300;

/** EN 10029:1991, plate, class A. */
const PLATE: readonly (readonly [upTo: number, ...SheetTolerance])[] = [
  [5, -0.4, 0.8],
  [8, -0.4, 1.1],
  [15, -0.5, 1.2],
  [25, -0.6, 1.3],
];

/**
 * EN 485-4, cold-rolled aluminium, over 1000 to 1250 mm wide, alloys of group I and of group II.
 */
const ALUMINIUM: readonly (readonly [upTo: number, groupI: number, groupII: number])[] = [
  [0.5, 0.04, 0.05],
  [0.6, 0.05, 0.06],
  [0.8, 0.06, 0.07],
  [1, 0.06, 0.08],
  [1.2, 0.07, 0.09],
  [1.5, 0.09, 0.11],
  [1.8, 0.1, 0.12],
  [2, 0.11, 0.13],
  [2.5, 0.12, 0.14],
  [3, 0.13, 0.15],
  [3.5, 0.15, 0.17],
];

/** Sheet thicker than this, mm, is bought as plate. */
const PLATE_FROM_MM = 6;

/** How far the standard of a sheet lets its thickness be off. */
export const sheetTolerance = (
  { id, family, yieldMpa }: Material,
  thicknessMm: number,
): Sourced<SheetTolerance> => {
  if (family === 'aluminium') {
    const isFirst = id.startsWith('1');
    const rows = ALUMINIUM.map(([upTo, one, two]): Row => [upTo, isFirst ? one : two]);
    return either(
      rows,
      thicknessMm,
      `EN 485-4, group ${isFirst ? 'I' : 'II'}, 1000 to 1250 mm wide`,
    );
  }
  if (thicknessMm > PLATE_FROM_MM) return plate(thicknessMm);
  if (family === 'galvanised')
    return {
      ...either(COLD_ROLLED, thicknessMm, ''),
      basis: 'from memory',
      source: 'as EN 10131 of cold-rolled sheet; EN 10143, its own, is a little wider',
    };
  if (family === 'stainless')
    return {
      ...either(COLD_ROLLED, thicknessMm, ''),
      basis: 'common practice',
      source: 'as EN 10131 of cold-rolled steel sheet',
    };
  if (id === 'dc01')
    return either(COLD_ROLLED, thicknessMm, 'EN 10131, normal, 1200 to 1500 mm wide');
  const isB = (yieldMpa.value ?? 0) > CATEGORY_A_MPA;
  return either(
    HOT_ROLLED.map(([upTo, limit]): Row => [upTo, limit * (isB ? CATEGORY_B : 1)]),
    thicknessMm,
    `EN 10051, category ${isB ? 'B' : 'A'}, 1200 to 1500 mm wide`,
  );
};

/**
 * The limit either way. Where the sheet is thicker than the table reaches, the limit grows with the
 * thickness.
 */
const either = (rows: readonly Row[], t: number, source: string): Sourced<SheetTolerance> => {
  const row = rows.find(([upTo]) => t <= upTo);
  if (row !== undefined) return published([-row[1], row[1]], source);
  const [end, last] = rows.at(-1) as Row;
  const limit = (last * t) / end;
  return practice(
    [-limit, limit],
    `${source}; beyond its table in proportion to the thickness: common practice`,
  );
};

const plate = (t: number): Sourced<SheetTolerance> => {
  const [, lower, upper] = (PLATE.find(([upTo]) => t <= upTo) ??
    PLATE.at(-1)) as (typeof PLATE)[number];
  return t <= 25
    ? published([lower, upper], 'EN 10029:1991, class A')
    : fromMemory([lower, upper], 'as EN 10029:1991, class A, of 25 mm');
};
