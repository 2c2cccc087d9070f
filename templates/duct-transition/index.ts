import { defineTemplate, fields } from '../../src/template.ts';
import { transitionParts } from './build.ts';

/** A duct from a rectangle to a circle, developed by triangulation and folded on the brake. */
export default defineTemplate({
  family: 'duct-transition',
  summary:
    'Transition from a rectangular to a round duct, concentric or offset, folded on the brake.',
  sketch: String.raw`
        from above                      from the front
   ________________________                diameter
  |\         back         /|             |<-------->|
  |  \      .----.      /  |      ^       __________      collar
  |     \  /      \  /     |      |      |__________|
  |left   |        |  right| depth|     /  .      .  \      ^
  |     /  \      /  \     |      |    /  .        .  \   length
  |  /      '----'      \  |      v   /__.__________.__\    v
  |/________front_________\|          |<---- width --->|
                                    offsetRight, offsetBack: middle
                                    of the round from the middle of
                                    the rectangle
`,
  inputs: {
    width: fields.length({
      about:
        'Width of the rectangular end, from left to right; measured on the duct it is joined to.',
      min: 10,
      max: 3000,
      example: 200,
    }),
    depth: fields.length({
      about: 'Depth of the rectangular end, from front to back.',
      min: 10,
      max: 3000,
      example: 150,
    }),
    diameter: fields.length({
      about: 'Diameter of the round end, that of the stub it is joined to.',
      min: 10,
      max: 3000,
      example: 120,
    }),
    length: fields.length({
      about: 'Distance of the two ends from each other, square to them, without the collar.',
      min: 5,
      max: 3000,
      example: 150,
    }),
    offsetRight: fields.length({
      about:
        'How far the middle of the round end lies to the right of the middle of the rectangle, less than 0 to the left.',
      min: -3000,
      max: 3000,
      default: 0,
    }),
    offsetBack: fields.length({
      about:
        'How far the middle of the round end lies behind the middle of the rectangle, less than 0 in front.',
      min: -3000,
      max: 3000,
      default: 0,
    }),
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
    blanks: fields.choice({
      about:
        'Whether it is folded from one blank with one seam, or from two halves with seams on opposite sides.',
      choices: ['whole', 'halves'],
      default: 'whole',
    }),
    seam: fields.choice({
      about:
        'Where a seam runs: up the middle of a side, or up the edge of its flat triangle from its left-hand corner, seen from outside. cornerGap is the gap of its weld.',
      choices: ['middle', 'corner'],
      default: 'middle',
    }),
    seamSide: fields.choice({
      about: 'The side with the seam; halves have the other seam on the side opposite.',
      choices: ['front', 'right', 'back', 'left'],
      default: 'front',
    }),
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
  },
  defaults: { rule: 'k:0.5' },
  cautions: ['sharp-edges', 'weld-heat'],
  examples: [
    {
      title: 'From the square outlet of the grape crusher fan to a round hose',
      inputs: {
        name: 'fan-outlet',
        width: 200,
        depth: 200,
        diameter: 120,
        length: 150,
        material: 'dc01',
        thickness: 1,
      },
    },
    {
      title:
        'Cold air for the cart engine: slot under the bonnet to a stub off centre, in two halves, with its collar',
      inputs: {
        name: 'engine-air-scoop',
        width: 260,
        depth: 90,
        diameter: 100,
        length: 220,
        offsetRight: 60,
        offsetBack: 25,
        divisions: 16,
        blanks: 'halves',
        seamSide: 'left',
        collar: 40,
        material: '5754-h111',
        thickness: 1.5,
      },
    },
    {
      title:
        'Odd on purpose: the round end larger than the box and hanging over it, inside sizes, seam at a corner, both hands',
      inputs: {
        name: 'dust-hood',
        width: '6in',
        depth: 120,
        diameter: 200,
        length: 130,
        offsetRight: -70,
        offsetBack: 40,
        divisions: 24,
        seam: 'corner',
        seamSide: 'back',
        measure: 'inside',
        material: '1.4301',
        thickness: 1,
        flow: 'to-rectangle',
        hand: 'both',
      },
    },
  ],
  build: transitionParts,
});
