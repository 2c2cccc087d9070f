import { MATERIALS } from '../data/materials.ts';
import type { Reader } from '../forms/field.ts';
import * as fields from '../forms/fields.ts';
import { readOutline } from '../forms/outline.ts';
import { checked, type Disagree, list, optional, section } from '../forms/sections.ts';
import { holeFlaws } from '../geometry/region.ts';
import { GRAINS, type Remnant, type RemnantHole, type SheetSize } from '../model/sheets.ts';
import { LENGTH_AND_WIDTH, MATERIAL_FAMILIES, sheetThickness } from './cutter.ts';
import { regionOf } from './remnant-region.ts';

/** Families and ids of materials. */
const metal = (about: string) =>
  fields.choice({ about, choices: [...MATERIAL_FAMILIES, ...MATERIALS.map((m) => m.id)] });

const price = optional(
  fields.number({
    about: "What it costs, in the shop's own currency.",
    what: 'a price',
    min: 0,
    max: 1e6,
  }),
);

const grain = (about: string) => optional(fields.choice({ about, choices: GRAINS }));

/** Far more than any rack holds: a count beyond is a slip of the finger. */
const MOST_SHEETS = 10_000;

/** A sheet in stock. */
export const sheet: Reader<SheetSize> = section('A sheet in stock.', {
  name: optional(fields.text({ about: 'What it is called.', max: 40 })),
  ...LENGTH_AND_WIDTH,
  material: optional(
    metal('The family of materials, or the material, that it is of; any without.'),
  ),
  thickness: optional(sheetThickness('Its thickness; any without.')),
  count: optional(
    fields.count({
      about: 'How many are there; without, as many as are wanted can be had.',
      min: 0,
      max: MOST_SHEETS,
    }),
  ),
  price,
  grain: grain('Which way its grain runs: along its length, or across it; not known without.'),
});

const OUTLINE_ALLOWED =
  "an outline: its points in order round it as x,y with ';' between them; r8 after a point rounds its corner, c8 cuts 8 off both its edges, arc makes it the point an arc passes through";

/** An outline that keeps its text, so that it is written back as it was typed. */
const outlineText = (about: string): Reader<string> => ({
  json: () => ({
    description: `${about} ${OUTLINE_ALLOWED}.`,
    anyOf: [{ type: 'string' }, { type: 'array', items: { type: 'string' } }],
  }),
  read: (given) => {
    const isLines = Array.isArray(given) && given.every((line) => typeof line === 'string');
    const text = isLines ? given.join('; ') : given;
    if (typeof text !== 'string')
      return {
        ok: false,
        flaws: [
          { path: [], allowed: OUTLINE_ALLOWED, mend: 'put all its points in one pair of quotes' },
        ],
      };
    const read = readOutline(text);
    if (read.ok) return { ok: true, value: text };
    const { given: told, mend } = read;
    return { ok: false, flaws: [{ path: [], allowed: OUTLINE_ALLOWED, given: told, mend }] };
  },
});

const place = (about: string) => fields.length({ about, min: -10_000, max: 20_000 });

const hole: Reader<RemnantHole> = checked(
  section('A hole that is cut in it already: by middle and diameter, or by its outline.', {
    x: optional(place('Its middle along the length, from the lower left corner.')),
    y: optional(place('Its middle across, from the lower left corner.')),
    diameter: optional(fields.length({ about: 'Its diameter.', min: 0.1, max: 10_000 })),
    outline: optional(outlineText('Its outline.')),
  }),
  ({ outline, ...round }, disagree) => {
    const given = Object.keys(round).length;
    if (outline === undefined ? given < 3 : given > 0)
      disagree(
        [],
        'a round hole as x, y and diameter, or any hole as outline',
        outline === undefined
          ? 'give all three: x, y, diameter'
          : 'leave out either the outline or x, y and diameter',
      );
  },
);

/** A DXF file beside the shop file, by its bare name. */
const drawing: Reader<string> = checked(
  fields.text({ about: 'Name of a DXF file beside the shop file.', max: 100 }),
  (name, disagree) => {
    if (/[/\\]/.test(name) || !/.\.dxf$/i.test(name))
      disagree(
        [],
        'the name of a DXF file that lies beside the shop file, such as r3.dxf',
        'put the file there and give its name without folders',
      );
  },
);

/** The readers of what may be left out, each of which gives nothing then. */
const { length: asLength, width: asWidth } = LENGTH_AND_WIDTH;

const remnant: Reader<Remnant> = checked(
  section('What was left of a sheet: length and width, or outline, or dxf says its shape.', {
    name: fields.text({ about: 'What is chalked on it.', max: 40 }),
    material: metal('The family of materials, or the material, that it is of.'),
    thickness: sheetThickness('Its thickness.'),
    length: optional(asLength),
    width: optional(asWidth),
    outline: optional(outlineText('Its outline.')),
    dxf: optional(drawing),
    holes: optional(
      list('What is cut out of it already.', hole, { what: 'holes', min: 0, max: 200 }),
    ),
    grain: grain('Which way its grain runs: along its length (x of its outline), or across.'),
    price,
  }),
  (value, disagree) => {
    if (isOneShape(value, disagree)) tellHoles(value, disagree);
  },
);

const isOneShape = (
  { length, width, outline, dxf, holes }: Remnant,
  disagree: Disagree,
): boolean => {
  const isRectangle = length !== undefined || width !== undefined;
  const shapes = [isRectangle, outline !== undefined, dxf !== undefined].filter((is) => is).length;
  const allowed = 'one shape: length and width, or outline, or dxf';
  if (shapes > 1) disagree([], allowed, 'leave out all but one of them');
  else if (shapes === 0) disagree([], allowed, 'add length and width');
  else if (isRectangle && (length === undefined || width === undefined))
    disagree([], allowed, `add ${length === undefined ? 'length' : 'width'}`);
  else if (dxf !== undefined && holes !== undefined)
    disagree(['holes'], 'no holes beside a DXF file', 'draw them in the file');
  else return dxf === undefined;
  return false;
};

/** Tells holes that are not by themselves inside the outline. */
const tellHoles = (value: Remnant, disagree: Disagree): void => {
  const region = regionOf(value);
  for (const { hole: i, meets } of region === undefined ? [] : holeFlaws(region))
    disagree(
      ['holes', i],
      meets === undefined
        ? 'a hole inside the outline, clear of its edge'
        : `a hole clear of the others; it meets hole ${meets + 1} of the list`,
      meets === undefined
        ? 'measure it from the lower left corner again; what breaks the edge belongs to the outline'
        : 'measure both again, or give the two as one outline',
    );
};

/** Remnants of a shop. */
export const remnants: Reader<readonly Remnant[]> = list(
  'What was left of sheets and is kept.',
  remnant,
  { what: 'remnants', min: 0, max: 500 },
);
