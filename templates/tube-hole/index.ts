import { defineTemplate } from '../../src/template.ts';
import { tubeHolePatch } from './build.ts';
import { inputs } from './inputs.ts';

/** A patch by which the hole for a tube at an angle comes onto a panel at true size. */
export default defineTemplate({
  family: 'tube-hole',
  summary:
    'Patch for the hole where a tube passes a panel at an angle, exact for the thickness of the panel.',
  sketch: String.raw`
     from above                      cut through the panel
          /\      <- the way             lean   /  /
     ____/  \____    it leans         |<-->/   /  /
    |    .--.    |                     |   /   /  /
    |  .'    '.  |                     |  /   /  / tube
   >|  |  +   |  |<- axis on      _____| /   /__/___
    |  '.    .'  |   this face    _____|/   /______  panelThickness
    |____'--'____|                     /   /  /
    |     /\     |                    /   /
    |<-margin all round
  The notches lie on the lines that were scribed through the axis.
`,
  inputs,
  cautions: ['sharp-edges', 'eyes', 'tank-opening'],
  examples: [
    {
      title:
        'Hole for the filler neck in the side of the cart, 30 degrees, with rubber on its edge',
      inputs: {
        name: 'neck-hole',
        tube: 60,
        lean: 30,
        clear: 0.5,
        grommet: 2,
        panelThickness: 1.5,
        material: 'dc01',
        thickness: 1,
        cornerRadius: 5,
      },
    },
    {
      title: 'Stay through a floor of thick plate at 45 degrees, to centre-punch through',
      inputs: {
        name: 'stay-hole',
        tube: 40,
        lean: 45,
        clear: 1,
        panelThickness: 6,
        form: 'punch',
        punches: 16,
        material: 's235',
        thickness: 1.5,
        cornerRadius: 5,
      },
    },
    {
      title: 'Odd on purpose: a thin line nearly flat to the panel, in inches',
      inputs: {
        name: 'line-hole',
        tube: '1/2in',
        lean: 72.5,
        panelThickness: '1/8in',
        margin: 15,
        material: '5754-h111',
        thickness: 2,
      },
    },
  ],
  build: tubeHolePatch,
});
