import { fields } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';

export const inputs = {
  ...fields.group('Tube', {
    kind: fields.choice({
      about:
        'What it is: a saddle on a surface, round the tube as far as around says; two halves, bolted to each other; or a p, once round with both ears on one bolt.',
      choices: ['saddle', 'halves', 'p'],
      default: 'saddle',
    }),
    diameter: fields.length({
      about: 'Outside diameter of the tube.',
      min: 4,
      max: 1000,
      example: 42.4,
    }),
    rubber: fields.length({
      about: 'Thickness of the rubber between the clip and the tube, as it is squeezed.',
      min: 0,
      max: 30,
      default: 2,
    }),
    around: fields.angle({
      about:
        'How far a saddle goes round the tube: 180 makes a half clip, more an omega that holds the tube by itself.',
      min: 40,
      max: 300,
      default: 180,
      when: { kind: ['saddle'] },
    }),
    seat: fields.optionalLength({
      about: "Height of the tube's middle over the surface that the ears are bolted to.",
      min: 0,
      max: 2000,
      example: 30,
      otherwise:
        'the tube lies on the surface by its rubber, or higher where the bends of the ears need it',
      when: { kind: ['saddle'] },
    }),
    gap: fields.length({
      about:
        'What is left between ear and surface, or between two ears, when the clip hugs the tube and is not tightened yet.',
      min: 0.5,
      max: 50,
      default: 3,
    }),
  }),
  ...fields.group('Ears', {
    boltFrom: fields.optionalLength({
      about: 'From the middle of the tube to the middle of the bolt, along the surface.',
      min: 1,
      max: 2000,
      example: 45,
      otherwise: 'the next whole millimetre at which a washer lies flat on the ear',
    }),
    boltFromB: fields.optionalLength({
      about: 'The same of the other ear, where it has another length.',
      min: 1,
      max: 2000,
      example: 55,
      otherwise: 'as boltFrom',
      when: { kind: ['saddle', 'halves'] },
    }),
    boltHole: fields.length({
      about: 'Diameter of the holes for the bolts.',
      min: 1,
      max: 60,
      default: 9,
    }),
    beyond: fields.length({
      about: 'Metal from the middle of a bolt to the free edge of its ear.',
      min: 1,
      max: 500,
      default: 14,
    }),
    width: fields.length({
      about: 'Width of the clip, along the tube.',
      min: 4,
      max: 1000,
      default: 25,
    }),
  }),
};

export type Saddle = TemplateValues<typeof inputs>;
