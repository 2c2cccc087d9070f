import { defineTemplate } from '../../src/template.ts';
import { saddle } from './build.ts';
import { inputs } from './inputs.ts';

/** A clip for a tube: what it holds and where its bolts are give the sizes. */
export default defineTemplate({
  family: 'saddle',
  summary:
    'Clip that hugs a tube: half or omega on a surface, in two halves, or once round as a P.',
  sketch: String.raw`
       saddle                   halves                  p
       .-----.                  .-----.              .-----.
     .'       '.              .'       '.          .'       '.
    |  diameter |            |           |        |  diameter |
    |     +     | ^       ___|           |___     |     +     |
    |           | |      |___            ___|     |          /_____
  __|           |__ seat gap       +       gap     '.        ______|
 |__|           |__| |    ___             ___        '-------._____ gap
 gap ~~~~~~~~~~~ gap v   |___|           |___|      ________foot____|
          |<boltFrom>|       |           |             |<-boltFrom->|
                              '.       .'
                                '-----'
  The rubber lies between. Both halves are alike.
`,
  inputs,
  when: { measure: [] },
  cautions: ['sharp-edges', 'load-bearing', 'carried-load'],
  examples: [
    {
      title: 'Half clip for the rail of the cart, on the headboard',
      inputs: {
        name: 'rail-clip',
        diameter: 42.4,
        seat: 24,
        boltFrom: 42,
        width: 30,
        material: 's235',
        thickness: 2,
      },
    },
    {
      title: 'Two halves round the strut of the sprayer',
      inputs: {
        name: 'strut-clip',
        kind: 'halves',
        diameter: 60.3,
        rubber: 3,
        gap: 4,
        boltFrom: 52,
        width: 40,
        material: '1.4301',
        thickness: 2,
      },
    },
    {
      title: 'P clip for a hydraulic line',
      inputs: {
        name: 'line-clip',
        kind: 'p',
        diameter: 18,
        rubber: 1.5,
        gap: 2,
        boltFrom: 24,
        boltHole: 6.6,
        beyond: 9,
        width: 16,
        material: 'dc01',
        thickness: 1.5,
      },
    },
    {
      title: 'Odd on purpose: an omega in inches, with one ear longer, both hands',
      inputs: {
        name: 'exhaust-clip',
        diameter: '1.5in',
        rubber: 0,
        around: 215,
        gap: 2.5,
        boltFrom: 38,
        boltFromB: '2.25in',
        boltHole: 8.4,
        width: 22,
        material: '1.4301',
        thickness: 1.5,
        hand: 'both',
      },
    },
  ],
  build: saddle,
});
