import { defineTemplate } from '../../src/template.ts';
import { ductBox } from './build.ts';
import { inputs } from './inputs.ts';

/** A duct of four tapered walls from a rectangular opening to a smaller one, or to a round stub. */
export default defineTemplate({
  family: 'duct-box',
  summary:
    'Duct box: tapered walls from a rectangular aperture with lips to a smaller end or a round stub.',
  sketch: String.raw`
    looking into the aperture              from the side
     ______________________         _
    |    lips              |       | \_ _              aperture at the
    |   ________________   |       |      \ _ _        left, end at the
    |  |\    top       /|  |       |            \ _    right
    |  | \____________/ |  |       |               |
    |  |left| end |right|  |height |       +offset | endHeight
    |  | /~~~~~~~~~~~~\ |  |       |            _ _| or stub
    |  |/   bottom     \|  |       |      _ _ /
    |   ----------------   |       |  _ /
    |______________________|       |_/
         width                      |<-- length -->|
  Walls are folded along their slanted corners; one corner is the seam.
`,
  inputs,
  when: {
    cornerRadius: [{ lip: 'more than 0' }, { end: ['lip-in', 'lip-out'] }],
    cornerChamfer: [{ lip: 'more than 0' }, { end: ['lip-in', 'lip-out'] }],
  },
  cautions: ['sharp-edges', 'weld-heat'],
  examples: [
    {
      title: 'Engine air for the cart from the grille to a round hose, the stub off the middle',
      inputs: {
        name: 'grille-intake',
        width: 240,
        height: 160,
        endWidth: 140,
        endHeight: 120,
        length: 200,
        offsetRight: 20,
        offsetUp: 10,
        lipHole: 5,
        cornerRadius: 3,
        end: 'stub',
        stub: 90,
        plateOn: 'bottom',
        lipForm: 'ring',
        weldAt: 'walls A',
        material: '5754-h111',
        thickness: 1.5,
      },
    },
    {
      title: 'Hopper mouth of the grape chute, square and even, 200 x 200 to 100 x 100',
      inputs: {
        name: 'chute-mouth',
        width: 200,
        height: 200,
        endWidth: 100,
        endHeight: 100,
        length: 150,
        end: 'lip-in',
        endLip: 12,
        lip: 0,
        material: 'dc01',
        thickness: 1.5,
      },
    },
    {
      title:
        'Dust duct of the sorting table in two halves, from clear openings, with lips at both ends',
      inputs: {
        name: 'dust-duct',
        width: 300,
        height: 180,
        endWidth: 160,
        endHeight: 140,
        length: 260,
        measure: 'inside',
        blanks: 'halves',
        seam: 'top-right',
        lip: 25,
        lipHole: 6.6,
        lipPitch: 100,
        end: 'lip-out',
        endLip: 20,
        cornerRadius: 3,
        material: 'dc01',
        thickness: 1,
        holesTop: '120,150,20',
      },
    },
    {
      title:
        'Odd on purpose: heater scoop that leans past its own aperture to one side, the top a sheet of its own, both hands',
      inputs: {
        name: 'heater-scoop',
        width: '8in',
        height: 90,
        endWidth: 120,
        endHeight: 110,
        length: 180,
        offsetRight: 75,
        offsetUp: -30,
        blanks: 'top-off',
        lip: 18,
        lipHole: 4.2,
        end: 'stub',
        stub: 60,
        stubRight: -15,
        stubUp: 5,
        stubMargin: 12,
        material: '1.4301',
        thickness: 1,
        hand: 'both',
      },
    },
  ],
  build: ductBox,
});
