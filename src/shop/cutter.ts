import { CUTTING } from '../data/cutting.ts';
import * as fields from '../forms/fields.ts';
import type { Reader } from '../forms/field.ts';
import {
  checked,
  type Disagree,
  list,
  made,
  optional,
  section,
  unless,
} from '../forms/sections.ts';
import type { Cutter, Kerf, LimitRow, LimitRows } from '../model/shop.ts';

/** Sheet thicker than this, mm, is plate for other trades. */
export const THICKEST_MM = 50;

export const sheetThickness = (about: string) =>
  fields.length({ about, min: 0.1, max: THICKEST_MM });

export const MATERIAL_FAMILIES = ['steel', 'galvanised', 'aluminium', 'stainless'] as const;

export const family = (about: string) => fields.choice({ about, choices: MATERIAL_FAMILIES });

const across = (about: string) => fields.length({ about, min: 10, max: 20_000 });

/** A rectangle that metal lies on or is bought as. */
export const LENGTH_AND_WIDTH = { length: across('Its length.'), width: across('Its width.') };

const limitRow: Reader<LimitRow> = checked(
  section('The limit up to a thickness: the largest of its figures counts.', {
    upTo: optional(sheetThickness('The largest thickness that the row holds for.')),
    mm: optional(fields.length({ about: 'Smallest size.', min: 0, max: 100 })),
    thicknesses: optional(
      fields.number({
        about: 'Smallest size in thicknesses of the sheet.',
        what: 'a number of sheet thicknesses',
        min: 0,
        max: 20,
      }),
    ),
    kerfs: optional(
      fields.number({
        about: 'Smallest size in widths of the cut.',
        what: 'a number of kerfs',
        min: 0,
        max: 20,
      }),
    ),
  }),
  (row, disagree) => {
    if (row.mm === undefined && row.thicknesses === undefined && row.kerfs === undefined)
      disagree(
        [],
        'a row with one at least of mm, thicknesses and kerfs',
        'write mm: 3 for 3 mm, or thicknesses: 1 for one thickness of the sheet',
      );
  },
);

/** Smallest sizes by thickness. */
const limits = (about: string): Reader<LimitRows | undefined> =>
  optional(
    checked(
      list(`${about} Left out: as its way of cutting has it.`, limitRow, {
        what: 'rows, each with upTo and one at least of mm, thicknesses and kerfs',
        min: 1,
        max: 40,
      }),
      inOrder,
    ),
  );

const inOrder = (rows: LimitRows, disagree: Disagree): void => {
  for (const [i, { upTo }] of rows.entries()) {
    if (upTo === undefined && i < rows.length - 1)
      disagree(
        [i],
        'upTo in every row but the last',
        'add upTo: with the largest thickness the row holds for',
      );
    const before = rows.slice(0, i).findLast((row) => row.upTo !== undefined)?.upTo;
    if (upTo !== undefined && before !== undefined && upTo <= before)
      disagree(
        [i, 'upTo'],
        `more than the ${before} of the row before`,
        'put the rows in the order of their thickness',
      );
  }
};

const ofFamily = optional(
  family(
    'The family of materials that the row is for; all that have no rows of their own without.',
  ),
);

const kerf = checked<readonly Kerf[]>(
  list(
    'Width of its cut by the thickness of the sheet.',
    section('Width of the cut at a thickness.', {
      thickness: sheetThickness('Thickness of the sheet.'),
      kerf: fields.length({ about: 'Width of the cut.', min: 0.01, max: 10 }),
      material: ofFamily,
    }),
    { what: 'rows, each with thickness and kerf', min: 1, max: 100 },
  ),
  (rows, disagree) => {
    if (!rows.some((row) => row.material === undefined))
      disagree(
        [],
        'one row at least without a material, for the materials that have no row',
        'leave material out of one row',
      );
    for (const [i, row] of rows.entries()) {
      const before = rows.slice(0, i).findLast((other) => other.material === row.material);
      if (before !== undefined && row.thickness <= before.thickness)
        disagree(
          [i, 'thickness'],
          `more than the ${before.thickness} of the row of the same material before`,
          'put the rows in the order of their thickness',
        );
    }
  },
);

const thickness = checked(
  section('The sheet that it takes.', {
    from: sheetThickness('The thinnest.'),
    to: sheetThickness('The thickest.'),
  }),
  ({ from, to }, disagree) => {
    if (from > to) disagree(['to'], `at least the ${from} of from`, 'exchange from and to');
  },
);

const imported = section('The form of file that its program needs.', {
  layers: fields.choice({
    about: 'Whether layers are kept, or all cuts are merged into one.',
    choices: ['kept', 'merged'],
    default: 'kept',
  }),
  foldLines: fields.choice({
    about: 'Whether fold lines are in the file.',
    choices: ['in', 'out'],
    default: 'in',
  }),
  curves: fields.choice({
    about: 'Whether arcs stay arcs or become chords.',
    choices: ['arcs', 'chords'],
    default: 'arcs',
  }),
  units: fields.choice({
    about: 'The unit of the figures in the file.',
    choices: ['mm', 'inch'],
    default: 'mm',
  }),
});

const rate = section('How fast it cuts sheet up to a thickness.', {
  thickness: sheetThickness('The thickness up to which it holds.'),
  speed: fields.number({
    about: 'Speed of the cut, mm a minute.',
    what: 'a speed in mm a minute',
    min: 1,
    max: 1e6,
  }),
  pierce: fields.number({
    about: 'Seconds that each pierce takes.',
    what: 'seconds for a pierce',
    min: 0,
    max: 120,
  }),
  material: ofFamily,
});

/** One cutter. What it leaves out follows from its process. */
export const cutter = made(
  section('A cutter, or a service that cuts.', {
    name: fields.text({ about: 'What it is called.', max: 100 }),
    process: fields.choice({
      about: 'How it cuts.',
      choices: ['laser', 'plasma', 'waterjet'],
    }),
    thickness,
    bed: section('The rectangle that it reaches.', LENGTH_AND_WIDTH),
    clamps: optional(
      fields.length({
        about:
          'Width along the lower edge of a sheet or remnant that its clamps hold, where nothing is laid; 0 when left out.',
        min: 0,
        max: 500,
      }),
    ),
    kerf,
    leastHole: limits('The smallest hole that it cuts.'),
    leastSlot: limits('The narrowest slot that it cuts.'),
    leastWeb: limits('The least metal that it leaves between two cuts.'),
    leastEdge: limits('The least metal that it leaves between a hole and the edge of a part.'),
    warpsUpTo: optional(
      fields.length({
        about:
          'Sheet up to this thickness is likely to warp; when left out, as usual for its way of cutting.',
        min: 0,
        max: THICKEST_MM,
      }),
    ),
    marks: fields.flag({
      about: 'Whether it can scribe lines that it does not cut.',
      default: false,
    }),
    import: unless(imported, {}),
    rates: optional(
      list('How fast it cuts, by the thickness of the sheet.', rate, {
        what: 'rows, each with thickness, speed and pierce',
        min: 1,
        max: 100,
      }),
    ),
    pricePerHour: optional(
      fields.number({
        about: "What an hour of it costs, in the shop's own currency.",
        what: 'a price by the hour',
        min: 0,
        max: 1e5,
      }),
    ),
  }),
  (given): Cutter => {
    const rules = CUTTING[given.process];
    return {
      ...given,
      leastHole: given.leastHole ?? rules.leastHole.value,
      leastSlot: given.leastSlot ?? rules.leastSlot.value,
      leastWeb: given.leastWeb ?? rules.leastWeb.value,
      leastEdge: given.leastEdge ?? rules.leastEdge.value,
      warpsUpTo: given.warpsUpTo ?? rules.warpsUpTo.value,
    };
  },
);
