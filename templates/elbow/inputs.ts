import { fields } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';
import { faceOut, sheetLength } from '../shell/rolled-fields.ts';

export const inputs = {
  ...fields.group('Sizes', {
    diameter: fields.length({
      about: 'Diameter of the round duct.',
      min: 5,
      max: 3000,
      example: 100,
      anchor: { kind: 'panel', panel: 'wall' },
    }),
    diameterOf: fields.choice({
      about: 'Where the diameter is measured: inside, outside, or on the middle of the sheet.',
      choices: ['inside', 'outside', 'middle'],
      default: 'outside',
    }),
    angle: fields.angle({
      about: 'How far the duct turns from end to end.',
      min: 5,
      max: 180,
      default: 90,
      anchor: { kind: 'panel', panel: 'wall' },
    }),
    centreRadius: fields.optionalLength({
      about: 'Radius of the bend at the middle line of the duct.',
      min: 5,
      max: 10_000,
      example: 150,
      otherwise: 'one and a half diameters, as is usual',
      anchor: { kind: 'panel', panel: 'wall' },
    }),
    segments: fields.count({
      about: 'Number of segments, both ends included, which are half as long as those between.',
      min: 2,
      max: 24,
      default: 5,
    }),
    stub: fields.length({
      about: 'Straight length at both ends, beyond where the bend begins, for a sleeve or a clamp.',
      min: 0,
      max: 1000,
      default: 0,
      anchor: { kind: 'panel', panel: 'wall' },
    }),
    faceOut,
  }),
  ...fields.group('Seams', {
    seamPlace: fields.choice({
      about:
        'Where the seams of the segments lie: staggered, at the throat and at the back in turn, so that no two meet and all patterns lie back to back; or all in a row. Of more pieces, the next segment has its seams half a piece on.',
      choices: ['staggered', 'throat', 'back'],
      default: 'staggered',
    }),
    seam: fields.choice({
      about: 'Whether seams along the segments are butted, with cornerGap between, or lapped.',
      choices: ['butt', 'lap'],
      default: 'butt',
    }),
    lap: fields.length({
      about: 'How far one end lies over the other in a lapped seam.',
      min: 1,
      max: 200,
      default: 10,
      when: { seam: ['lap'] },
      anchor: { kind: 'panel', panel: 'wall' },
    }),
    pieces: fields.count({
      about: 'Number of pieces round each segment, for a sheet that is too short for one.',
      min: 1,
      max: 12,
      default: 1,
    }),
  }),
  ...fields.group('Sheet', {
    sheetLength,
  }),
};

/** The inputs of an elbow; lengths in mm. */
export type Elbow = TemplateValues<typeof inputs>;
