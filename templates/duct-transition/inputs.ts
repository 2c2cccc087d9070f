import { fields } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';

export const inputs = {
  ...fields.group('Sizes', {
    width: fields.length({
      about:
        'Width of the rectangular end, from left to right; measured on the duct it is joined to.',
      min: 10,
      max: 3000,
      example: 200,
      anchor: { kind: 'panel', panel: 'front' },
    }),
    depth: fields.length({
      about: 'Depth of the rectangular end, from front to back.',
      min: 10,
      max: 3000,
      example: 150,
      anchor: { kind: 'panel', panel: 'left' },
    }),
    diameter: fields.length({
      about: 'Diameter of the round end, that of the stub it is joined to.',
      min: 10,
      max: 3000,
      example: 120,
      anchor: { kind: 'beside', what: 'the round end' },
    }),
    length: fields.length({
      about: 'Distance of the two ends from each other, square to them, without the collar.',
      min: 5,
      max: 3000,
      example: 150,
      anchor: { kind: 'panel', panel: 'front' },
    }),
    offsetRight: fields.length({
      about:
        'How far the middle of the round end lies to the right of the middle of the rectangle, less than 0 to the left.',
      min: -3000,
      max: 3000,
      default: 0,
      anchor: { kind: 'beside', what: 'the line between the middles of both ends' },
    }),
    offsetBack: fields.length({
      about:
        'How far the middle of the round end lies behind the middle of the rectangle, less than 0 in front.',
      min: -3000,
      max: 3000,
      default: 0,
      anchor: { kind: 'beside', what: 'the line between the middles of both ends' },
    }),
  }),
  ...fields.group('Facets', {
    divisions: fields.count({
      about:
        'Equal parts of the circle, a multiple of 4: each corner of the rectangle gets a quarter of them as facets. 12 or more are usual.',
      min: 4,
      max: 96,
      default: 12,
    }),
    roundEdge: fields.choice({
      about:
        'Length of the round edge: circumference, its chords add up to that of the stub, so that it goes round it when dressed; chords, its points lie on the circle and it comes out short.',
      choices: ['circumference', 'chords'],
      default: 'circumference',
    }),
  }),
  ...fields.group('Blanks and seams', {
    blanks: fields.choice({
      about:
        'Whether it is folded from one blank with one seam, or from two halves with seams on opposite sides.',
      choices: ['whole', 'halves'],
      default: 'whole',
    }),
    seam: fields.choice({
      about:
        'Place of the seam: up the middle of a side, or up the edge of its flat triangle from its left-hand corner, seen from outside. cornerGap is the gap of its weld.',
      choices: ['middle', 'corner'],
      default: 'middle',
    }),
    seamSide: fields.choice({
      about: 'The side with the seam; halves have the other seam on the side opposite.',
      choices: ['front', 'right', 'back', 'left'],
      default: 'front',
    }),
  }),
  ...fields.group('Collar and flow', {
    collar: fields.length({
      about: 'Length of a round stub rolled from a strip of its own, 0 for none.',
      min: 0,
      max: 1000,
      default: 0,
    }),
    flow: fields.choice({
      about: 'Which way the air goes; tells the inlet from the outlet.',
      choices: ['to-round', 'to-rectangle'],
      default: 'to-round',
    }),
  }),
};

/** The inputs of a transition; lengths in mm. */
export type DuctTransition = TemplateValues<typeof inputs>;
