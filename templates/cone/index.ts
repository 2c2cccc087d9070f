import { defineTemplate } from '../../src/template.ts';
import { cone } from './build.ts';
import { inputs } from './inputs.ts';

/** A frustum of a cone, right or oblique, rolled or bumped from its development. */
export default defineTemplate({
  family: 'cone',
  summary: 'Frustum of a cone, right or oblique, developed to be rolled or bumped.',
  sketch: String.raw`
        from the side                        the blank
          smallDiameter                     .--------.
           |<---->|                      .'   small    '.
            ______         ^            /    .-----.     \
           /      \        |           /   .'       '.    \
          /        \       | height   '--./           \.--'
         /          \      |            seam          seam
        /____________\     v
        |<---------->|                offset: middle of the small end
         largeDiameter                beside that of the large one
`,
  inputs,
  when: { cornerRadius: [], cornerChamfer: [], measure: [], radius: [], rule: [] },
  defaults: { rule: 'k:0.5' },
  cautions: ['sharp-edges', 'weld-heat'],
  examples: [
    {
      title: 'From the air filter of the cart engine down to its hose',
      inputs: {
        name: 'filter-cone',
        largeDiameter: 120,
        smallDiameter: 80,
        diameterOf: 'middle',
        height: 150,
        material: 'dc01',
        thickness: 1,
      },
    },
    {
      title: 'Oblique hopper outlet beside the middle of the grape bin, in two halves',
      inputs: {
        name: 'bin-outlet',
        largeDiameter: 400,
        smallDiameter: 160,
        diameterOf: 'inside',
        height: 260,
        offset: 90,
        pieces: 2,
        material: '1.4301',
        thickness: 1.5,
      },
    },
    {
      title:
        'Odd on purpose: flat oblique funnel in inches, lapped, seam aside, the drawn face out, both hands',
      inputs: {
        name: 'must-funnel',
        largeDiameter: '14in',
        smallDiameter: 60,
        height: 70,
        offset: 40,
        seam: 'lap',
        lap: 10,
        seamAt: 75,
        faceOut: 'upper',
        material: '5754-h111',
        thickness: 1,
        hand: 'both',
      },
    },
  ],
  build: cone,
});
