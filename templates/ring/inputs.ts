import { fields } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';

export const inputs = {
  ...fields.group('Sizes', {
    shape: fields.choice({
      about: 'Outer shape; the corners of a square one are rounded by cornerRadius.',
      choices: ['round', 'square'],
      default: 'round',
    }),
    outer: fields.length({
      about: 'Outer diameter of a round one, or width of a square one.',
      min: 5,
      max: 3000,
      example: 120,
    }),
    outerHeight: fields.optionalLength({
      about: 'Height of a square one that is not as high as wide.',
      min: 5,
      max: 3000,
      example: 90,
      otherwise: 'the width',
      when: { shape: ['square'] },
    }),
    inner: fields.length({
      about: 'Diameter of the hole in the middle, 0 for a blanking plate.',
      min: 0,
      max: 3000,
      default: 0,
      example: 70,
    }),
  }),
  ...fields.group('Bolts', {
    bolts: fields.count({
      about: 'Number of holes evenly round the bolt circle, 0 for none.',
      min: 0,
      max: 60,
      default: 6,
    }),
    boltCircle: fields.length({
      about: 'Diameter of the circle through the middles of the bolt holes.',
      min: 1,
      max: 3000,
      example: 95,
      when: { bolts: 'more than 0' },
    }),
    boltHole: fields.length({
      about: 'Diameter of the bolt holes.',
      min: 0.5,
      max: 200,
      default: 5.5,
      when: { bolts: 'more than 0' },
    }),
    boltStart: fields.angle({
      about: 'Angle at which the first bolt hole lies, counter-clockwise from the right.',
      min: 0,
      max: 360,
      default: 90,
      when: { bolts: 'more than 0' },
      anchor: { kind: 'as', input: 'boltCircle' },
    }),
  }),
  ...fields.group('Holes', {
    holes: fields.holes({
      about: 'More holes',
      axes: [
        { from: 'up', at: 'from the centre upward', isDirection: true },
        { from: 'right', at: 'from the centre to the right', isDirection: true },
      ],
    }),
  }),
};

export type Ring = TemplateValues<typeof inputs>;
