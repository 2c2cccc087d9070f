import { defineTemplate } from '../../src/template.ts';
import { shell } from './build.ts';
import { inputs } from './inputs.ts';

/** A cylinder or a part of one, rolled or bumped from a flat blank. */
export default defineTemplate({
  family: 'shell',
  summary: 'Cylinder or part of one, rolled or bumped, with holes, seam and flanges.',
  sketch: String.raw`
        from above                      from the side
          .------.                     ________________
       .'          '.   arc           |                |  ^
      /              \                |      ( )       |  | length
     |<-- diameter -->|               |                |  |
      \              /                |________________|  v
       '.          .'
          '--  --'   seam: butt, lap, or flange
   Holes: angle round from the left edge, height, size.
`,
  inputs,
  when: {
    cornerRadius: [],
    cornerChamfer: [],
    measure: [],
    radius: { flange: 'more than 0' },
    rule: { flange: 'more than 0' },
  },
  cautions: ['sharp-edges', 'weld-heat'],
  examples: [
    {
      title: 'Housing of the fan of the grape crusher, with a stub and four screws',
      inputs: {
        name: 'fan-housing',
        diameter: 300,
        length: 180,
        holes: '120,90,80; 45,15,M6; 135,15,M6; 225,15,M6; 315,15,M6',
        material: 'dc01',
        thickness: 1.5,
      },
    },
    {
      title: 'Half shell with flanges that clamps the exhaust heat shield of the cart',
      inputs: {
        name: 'shield-half',
        diameter: 160,
        diameterOf: 'outside',
        arc: 180,
        length: 240,
        flange: 25,
        radius: 2,
        rule: 'k:0.42',
        material: '1.4301',
        thickness: 1,
        quantity: 2,
      },
    },
    {
      title: 'Odd on purpose: lapped drum of three shells, inches, the drawn face out, both hands',
      inputs: {
        name: 'sieve-drum',
        diameter: '40in',
        diameterOf: 'middle',
        length: 300,
        seam: 'lap',
        lap: 30,
        pieces: 3,
        faceOut: 'upper',
        holes: '40,150,60; 200,80,M10',
        sheetLength: 1250,
        material: '5754-h111',
        thickness: 2,
        hand: 'both',
      },
    },
  ],
  build: shell,
});
