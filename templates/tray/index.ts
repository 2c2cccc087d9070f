import { defineTemplate } from '../../src/template.ts';
import { trayPart } from './build.ts';
import { inputs } from './inputs.ts';

/** A tray: a base with four sides folded up, its corners left open, butted, or lapped by tabs. */
export default defineTemplate({
  family: 'tray',
  summary: 'Tray with four sides up; corners open, butt or lapped; return lips and hems.',
  sketch: String.raw`
                 flat                     a corner seen from above
            ________________
           |      back      |             open     butt     lapped
     ______|- - - - C - - - |______          ----  | ----  | +----
    |      |                |      |      |        |       | |
    | left D      base      B right|      |        |       | | tab
    |______|                |______| depth                 |
           |- - - - A - - - |             Butt and lapped: left and
           |     front      | height      right run the full depth,
           |________________|             front and back stand
                 length                   between them.
`,
  inputs,
  when: { cornerRadius: { corner: ['lapped'] }, cornerChamfer: { corner: ['lapped'] } },
  cautions: ['sharp-edges', 'carried-load'],
  examples: [
    {
      title: 'Tray for the pump control of the cart, cables over the right side',
      inputs: {
        name: 'pump-control-tray',
        length: 180,
        depth: 120,
        height: 40,
        material: '5754-h111',
        thickness: 2,
        cableSide: 'right',
        cableAt: 45,
        holesBase: '30,30,5.5; 30,150,5.5; 90,30,5.5; 90,150,5.5',
        holesLeft: '22,60,12x25',
      },
    },
    {
      title:
        'Battery tray with lapped corners to be riveted or welded, front hemmed outward for a safe edge',
      inputs: {
        name: 'battery-tray',
        length: 260,
        depth: 180,
        height: 60,
        corner: 'lapped',
        lap: 25,
        cornerRadius: 4,
        lipFront: 'hem-out',
        lipDepth: 14,
        material: 'dc01',
        thickness: 1.5,
        holesBase: '90,40,9x30@90; 90,220,9x30@90',
      },
    },
    {
      title:
        'Odd on purpose: butt corners, lips in on left and back, out at the front, inside dimensions, both hands',
      inputs: {
        name: 'relay-box',
        length: '6in',
        depth: 90,
        height: 50,
        corner: 'butt',
        lipLeft: 'in',
        lipBack: 'in',
        lipFront: 'out',
        lipDepth: 14,
        material: 's235',
        thickness: 1.5,
        measure: 'inside',
        hand: 'both',
        cableSide: 'right',
        cableWidth: 12,
        cableDepth: 16,
        holesFront: '25,30,RN6',
      },
    },
  ],
  build: trayPart,
});
