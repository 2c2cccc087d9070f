import { defineTemplate } from '../../src/template.ts';
import { strap } from './build.ts';
import { inputs } from './inputs.ts';

/**
 * A strap over a tank or a bottle, with a foot on either side. What it holds gives the sizes, not
 * the strap.
 */
export default defineTemplate({
  family: 'strap',
  summary: 'Strap over a box or a round, with feet that are pulled down by bolts.',
  sketch: String.raw`
  over a box                         over a round
      _____________                       _______
     |  _________  |  ^                 .' _____ '.      ^
     | |  across | |  |               .' .'     '. '.    |
     | |         | |  |               | |  across | |    |
     | |         | | height           | |         | |  height
  ___| |         | |___               | |         | |    |
  |____|         |____|  v         ___| |         | |___
     |             |               |____|         |____|   v
     +-boltCentres-+
  The rubber lies between; the feet stand pullUp over their mounting.
  Over a box that slopes, or under a floor that does (turn it over):
            __________                       __________
    ^  ___.-'        |  ^       seen from   |      .--'|  slopeAlong:
 height|  slopeAcross|  heightB  side A     |__.--'    |  up to the
    v _|             |_ v                   |__________|  right edge
  stepB: how much higher the surface under foot B lies than under A
`,
  inputs,
  cautions: ['sharp-edges', 'load-bearing', 'carried-load'],
  examples: [
    {
      title: 'Strap over the battery of the cart',
      inputs: {
        name: 'battery-strap',
        over: 'box',
        across: 175,
        height: 190,
        boltCentres: 235,
        width: 30,
        material: 's235',
        thickness: 2,
        cornerRadius: 6,
      },
    },
    {
      title: 'Strap over the round spray tank, in its cradle',
      inputs: {
        name: 'spray-tank-strap',
        over: 'round',
        across: 300,
        height: 320,
        rubber: 4,
        boltCentres: 370,
        width: 40,
        pullUp: 5,
        boltHole: 11,
        beyond: 22,
        material: '1.4301',
        thickness: 2,
        quantity: 2,
      },
    },
    {
      title:
        'Strap under the water tank whose floor falls to one side, one foot on a rail that stands off',
      inputs: {
        name: 'water-tank-strap',
        over: 'box',
        across: 300,
        height: 210,
        heightB: 190,
        stepB: 40,
        rubber: 4,
        boltCentres: 380,
        width: 40,
        pullUp: 4,
        boltHole: 11,
        beyond: 22,
        material: 's235',
        thickness: 3,
        radius: 3,
      },
    },
    {
      title: 'Straps under a floor that falls both ways, left and right, with a drain hole',
      inputs: {
        name: 'floor-strap',
        over: 'box',
        across: 260,
        height: 150,
        slopeAcross: -6,
        slopeAlong: 4,
        stepB: -12,
        rubber: 3,
        boltCentres: 330,
        width: 50,
        pullUp: 0,
        holesCrown: '120,25,12',
        holesB: '40,15,5',
        material: 's235',
        thickness: 2,
        hand: 'both',
      },
    },
    {
      title:
        'Odd on purpose: a thick strap over a slim bottle, plain holes, a tag hole in one side',
      inputs: {
        name: 'bottle-strap',
        over: 'round',
        across: '3in',
        height: 90,
        rubber: 0,
        boltCentres: 130,
        width: 25,
        pullUp: 0,
        boltHole: 6.6,
        beyond: 14,
        material: '5754-h111',
        thickness: 3,
        holesA: '30,12.5,5',
        hand: 'both',
      },
    },
  ],
  build: strap,
});
