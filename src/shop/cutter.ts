import * as z from 'zod';
import { CUTTING } from '../data/cutting.ts';
import type { Cutter, LimitRows } from '../model/shop.ts';
import { disagree, list, mm, name, plain, section, word, yesNo } from '../forms/entries.ts';

/** Sheet thicker than this, mm, is plate for other trades. */
export const THICKEST_MM = 50;

export const family = () => word('steel', 'galvanised', 'aluminium', 'stainless');

/** A rectangle that metal lies on or is bought as. */
export const LENGTH_AND_WIDTH = { length: mm(10, 20_000), width: mm(10, 20_000) };

const limitRow = section({
  upTo: mm(0.1, THICKEST_MM).optional(),
  mm: mm(0, 100).optional(),
  thicknesses: plain('a number of sheet thicknesses', 0, 20).optional(),
  kerfs: plain('a number of kerfs', 0, 20).optional(),
}).check(({ value, issues }) => {
  if (value.mm !== undefined || value.thicknesses !== undefined || value.kerfs !== undefined)
    return;
  disagree(
    issues,
    value,
    [],
    'a row with one at least of mm, thicknesses and kerfs',
    'write mm: 3 for 3 mm, or thicknesses: 1 for one thickness of the sheet',
  );
});

/** Least sizes by thickness. */
const limits = (): z.ZodType<LimitRows> =>
  list(limitRow, 'rows, each with upTo and one at least of mm, thicknesses and kerfs', 1, 40).check(
    ({ value, issues }) => {
      for (const [i, { upTo }] of value.entries()) {
        if (upTo === undefined && i < value.length - 1)
          disagree(
            issues,
            value[i],
            [i],
            'upTo in every row but the last',
            'add upTo: with the largest thickness the row holds for',
          );
        const before = value.slice(0, i).findLast((row) => row.upTo !== undefined)?.upTo;
        if (upTo !== undefined && before !== undefined && upTo <= before)
          disagree(
            issues,
            upTo,
            [i, 'upTo'],
            `more than the ${before} of the row before`,
            'put the rows in the order of their thickness',
          );
      }
    },
  );

const kerfRow = section({
  thickness: mm(0.1, THICKEST_MM),
  kerf: mm(0.01, 10),
  material: family().optional(),
});

const kerf = list(kerfRow, 'rows, each with thickness and kerf', 1, 100).check(
  ({ value, issues }) => {
    if (!value.some((row) => row.material === undefined))
      disagree(
        issues,
        value,
        [],
        'one row at least without a material, for the materials that have no row',
        'leave material out of one row',
      );
    for (const [i, row] of value.entries()) {
      const before = value.slice(0, i).findLast((other) => other.material === row.material);
      if (before !== undefined && row.thickness <= before.thickness) {
        disagree(
          issues,
          row.thickness,
          [i, 'thickness'],
          `more than the ${before.thickness} of the row of the same material before`,
          'put the rows in the order of their thickness',
        );
      }
    }
  },
);

const thickness = section({ from: mm(0.1, THICKEST_MM), to: mm(0.1, THICKEST_MM) }).check(
  ({ value: { from, to }, issues }) => {
    if (from > to)
      disagree(issues, to, ['to'], `at least the ${from} of from`, 'exchange from and to');
  },
);

const imported = section({
  layers: word('kept', 'merged').default('kept'),
  foldLines: word('in', 'out').default('in'),
  curves: word('arcs', 'chords').default('arcs'),
  units: word('mm', 'inch').default('mm'),
});

const rate = section({
  thickness: mm(0.1, THICKEST_MM),
  speed: plain('a speed in mm a minute', 1, 1e6),
  pierce: plain('seconds for a pierce', 0, 120),
  material: family().optional(),
});

/** One cutter. What it leaves out follows from its process. */
export const cutter = section({
  name: name(),
  process: word('laser', 'plasma', 'waterjet'),
  thickness,
  bed: section(LENGTH_AND_WIDTH),
  kerf,
  leastHole: limits().optional(),
  leastSlot: limits().optional(),
  leastWeb: limits().optional(),
  leastEdge: limits().optional(),
  warpsUpTo: mm(0, THICKEST_MM).optional(),
  marks: yesNo().default(false),
  import: imported.prefault({}),
  rates: list(rate, 'rows, each with thickness, speed and pierce', 1, 100).optional(),
  pricePerHour: plain('a price by the hour', 0, 1e5).optional(),
}).transform((given): Cutter => {
  const rules = CUTTING[given.process];
  return {
    ...given,
    leastHole: given.leastHole ?? rules.leastHole.value,
    leastSlot: given.leastSlot ?? rules.leastSlot.value,
    leastWeb: given.leastWeb ?? rules.leastWeb.value,
    leastEdge: given.leastEdge ?? rules.leastEdge.value,
    warpsUpTo: given.warpsUpTo ?? rules.warpsUpTo.value,
  };
});
