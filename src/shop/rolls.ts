import * as fields from '../forms/fields.ts';
import { list, optional, section } from '../forms/sections.ts';
import { family, sheetThickness } from './cutter.ts';

const roll = section('Rolls that sheet is rounded in.', {
  name: fields.text({ about: 'Their name.', max: 80 }),
  width: fields.length({
    about: 'Width of the widest sheet that goes in, along the rolls.',
    min: 10,
    max: 20_000,
  }),
  leastDiameter: fields.length({
    about: 'Inside diameter of the tightest round that comes out of them before it springs open.',
    min: 1,
    max: 10_000,
  }),
  capacity: sheetThickness('Thickest mild steel that they roll over their whole width.'),
  capacities: optional(
    list(
      'Thickest sheet of other families; by its strength where left out.',
      section('The thickest sheet of a family.', {
        material: family('The family of materials.'),
        thickness: sheetThickness('Its thickness.'),
      }),
      { what: 'thicknesses by material', min: 0, max: 20 },
    ),
  ),
});

/** The rolls of a shop. */
export const rolls = list('Its rolls for sheet, in the order of preference.', roll, {
  what: 'rolls',
  min: 0,
  max: 20,
});
