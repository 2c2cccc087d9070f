import { fields, roundHoles } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';
import { faceOut, sheetLength } from './rolled-fields.ts';

export const inputs = {
  ...fields.group('Sizes', {
    diameter: fields.length({
      about: 'Diameter of the shell.',
      min: 5,
      max: 6000,
      example: 300,
      anchor: { kind: 'panel', panel: 'wall' },
    }),
    diameterOf: fields.choice({
      about: 'Where the diameter is measured: inside, outside, or on the middle of the sheet.',
      choices: ['inside', 'outside', 'middle'],
      default: 'inside',
    }),
    arc: fields.angle({
      about: 'How far round it goes: 360 for a whole cylinder, less for a part of one.',
      min: 10,
      max: 360,
      default: 360,
      anchor: { kind: 'panel', panel: 'wall' },
    }),
    length: fields.length({
      about: 'Length along the axis, from end to end.',
      min: 5,
      max: 6000,
      example: 250,
    }),
    faceOut,
  }),
  ...fields.group('Seam', {
    seam: fields.choice({
      about: 'Whether the seam of a whole cylinder is butted, with cornerGap between, or lapped.',
      choices: ['butt', 'lap'],
      default: 'butt',
    }),
    lap: fields.length({
      about: 'How far one end lies over the other in a lapped seam, round the middle of the sheet.',
      min: 1,
      max: 500,
      default: 15,
      anchor: { kind: 'panel', panel: 'wall' },
      when: { seam: ['lap'] },
    }),
    flange: fields.length({
      about:
        'Straight flange at both upright edges, folded outward before rolling, from the inside face of the wall to its edge; 0 for none. Flanges meet flat with cornerGap between them.',
      min: 0,
      max: 500,
      default: 0,
      anchor: { kind: 'panel', panel: 'flange left' },
    }),
    pieces: fields.count({
      about: 'Number of equal shells round it, for a sheet that is too short for one.',
      min: 1,
      max: 24,
      default: 1,
    }),
  }),
  ...fields.group('Holes', {
    holes: roundHoles({
      about:
        'Round holes that a straight tube or screw passes square to the axis: the angle from the left edge of the drawing, with the wall as it is given round, then the height over the lower end, then the size.',
      example: '90,60,M8; 180,125,60',
    }),
  }),
  ...fields.group('Sheet', {
    sheetLength,
  }),
};

/** The inputs of a shell; lengths in mm. */
export type Shell = TemplateValues<typeof inputs>;
