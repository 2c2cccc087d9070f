import { fields } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';
import { faceOut, sheetLength } from '../shell/rolled-fields.ts';

export const inputs = {
  ...fields.group('Sizes', {
    largeDiameter: fields.length({
      about: 'Diameter of the large end.',
      min: 5,
      max: 6000,
      example: 200,
      anchor: { kind: 'panel', panel: 'wall' },
    }),
    smallDiameter: fields.length({
      about: 'Diameter of the small end.',
      min: 2,
      max: 6000,
      example: 120,
      anchor: { kind: 'panel', panel: 'wall' },
    }),
    diameterOf: fields.choice({
      about: 'Where the diameters are measured: inside, outside, or on the middle of the sheet.',
      choices: ['inside', 'outside', 'middle'],
      default: 'outside',
    }),
    height: fields.length({
      about:
        'Distance of the two ends from each other, square to them, from edge to edge of one face.',
      min: 2,
      max: 6000,
      example: 150,
      anchor: { kind: 'panel', panel: 'wall' },
    }),
    offset: fields.length({
      about:
        'How far the middle of the small end lies beside that of the large one; 0 for a right cone.',
      min: 0,
      max: 3000,
      default: 0,
      anchor: { kind: 'panel', panel: 'wall' },
    }),
    faceOut,
  }),
  ...fields.group('Seam', {
    seam: fields.choice({
      about: 'Whether seams are butted, with cornerGap between, or lapped.',
      choices: ['butt', 'lap'],
      default: 'butt',
    }),
    lap: fields.length({
      about: 'How far one end lies over the other in a lapped seam.',
      min: 1,
      max: 200,
      default: 12,
      when: { seam: ['lap'] },
      anchor: { kind: 'panel', panel: 'wall' },
    }),
    seamAt: fields.angle({
      about:
        'Where the first seam runs up: degrees round from the side to which the small end is offset; on the far side, 180, it is longest, at 0 shortest. Of a right cone it changes nothing.',
      min: 0,
      max: 360,
      default: 0,
      anchor: { kind: 'panel', panel: 'wall' },
    }),
    pieces: fields.count({
      about: 'Number of pieces round it, for a sheet that does not take one.',
      min: 1,
      max: 12,
      default: 1,
    }),
  }),
  ...fields.group('Sheet', {
    sheetLength,
  }),
};

/** The inputs of a cone; lengths in mm. */
export type Cone = TemplateValues<typeof inputs>;
