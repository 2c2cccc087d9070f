import { defineTemplate } from '../../src/template.ts';
import { transitionParts } from './build.ts';
import { inputs } from './inputs.ts';

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
  inputs,
  // Its corners meet others at the seams, and its folds lie on the middle of the sheet.
  when: { cornerRadius: [], cornerChamfer: [], rule: [] },
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
