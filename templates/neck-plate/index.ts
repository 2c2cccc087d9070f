import { defineTemplate } from '../../src/template.ts';
import { neckPlate } from './build.ts';
import { inputs } from './inputs.ts';

/** A plate that a filler neck passes at an angle, and the hole of the panel under it. */
export default defineTemplate({
  family: 'neck-plate',
  summary:
    'Plate for a filler neck at an angle, flat or tilted square to it, with the patch for the panel hole.',
  sketch: String.raw`
   mount flat              mount raised              mount sunk
     .-----.                     __.
   .' o   o '.              __.-'  |               flange ___       ___
  |   .---.   |       low  |       |                         |     |
  |  ( neck ) | outer   ___|       |___ flange               |     |
  |   '---'   |        ================== panel        low   |   .-'
   '. o   o .'             |<-base>|                         |.-'
     '-----'  boltCircle
  The neck leans upwards in the drawing of a flat plate, and towards the
  low wall of a box. The patch lies on the panel, its notch that way.
`,
  inputs,
  when: {
    cornerRadius: [{ shape: ['square'] }, { mount: ['raised', 'sunk'] }],
    cornerChamfer: [{ shape: ['square'] }, { mount: ['raised', 'sunk'] }],
  },
  cautions: ['fuel-tank', 'tank-opening', 'sharp-edges'],
  examples: [
    {
      title: 'Flange for the filler neck of the cart, through its side at 30 degrees',
      inputs: {
        name: 'neck-flange',
        tube: 60,
        lean: 30,
        grommet: 1.5,
        bolts: 6,
        boltStart: 0,
        material: '5754-h111',
        thickness: 3,
      },
    },
    {
      title: 'Housing that holds the neck square to its face, raised over the panel',
      inputs: {
        name: 'neck-housing',
        mount: 'raised',
        tube: 50,
        lean: 20,
        base: 130,
        wide: 100,
        low: 18,
        flange: 24,
        bolts: 3,
        cornerRadius: 4,
        material: '5754-h111',
        thickness: 1.5,
        radius: 2,
      },
    },
    {
      title: 'Odd on purpose: a sunk face by its inside sizes, in inches, for a slim neck',
      inputs: {
        name: 'neck-recess',
        mount: 'sunk',
        tube: '1 1/2in',
        lean: 12.5,
        clear: 1,
        base: 90,
        wide: '3 1/4in',
        low: 22,
        flange: 20,
        bolts: 2,
        boltHole: 4.5,
        panelThickness: 1,
        measure: 'inside',
        material: 'dc01',
        thickness: 1,
        hand: 'both',
      },
    },
    {
      title: 'A square plate with five bolts',
      inputs: {
        name: 'square-neck',
        shape: 'square',
        tube: 45,
        lean: 40,
        outer: 130,
        boltCircle: 112,
        bolts: 5,
        boltStart: 54,
        cornerRadius: 10,
        material: 's235',
        thickness: 2,
      },
    },
  ],
  build: neckPlate,
});
