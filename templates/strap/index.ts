import { between, defineTemplate, fields, FROM_LEFT } from '../../src/template.ts';
import { strap } from './build.ts';

/** Of a side: up from the surface that its foot lies on. */
const SIDE_AXES = [{ from: 'foot', at: 'the underside of its foot' }, FROM_LEFT] as const;

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
`,
  inputs: {
    over: fields.choice({
      about: 'What the strap goes over.',
      choices: ['box', 'round'],
      default: 'box',
    }),
    across: fields.length({
      about: 'Width of the box or diameter of the round, without rubber.',
      min: 1,
      max: 3000,
      example: 150,
    }),
    height: fields.length({
      about:
        'From the surface the feet are bolted to up to the top of the box or round, without rubber.',
      min: 1,
      max: 3000,
      example: 100,
    }),
    rubber: fields.length({
      about: 'Thickness of the rubber between the strap and what it holds.',
      min: 0,
      max: 50,
      default: 3,
    }),
    width: fields.length({
      about: 'Width of the strap, along the folds.',
      min: 1,
      max: 1000,
      default: 30,
    }),
    boltCentres: fields.length({
      about: 'Distance between the centres of the two bolts.',
      min: 1,
      max: 6000,
      example: 220,
    }),
    boltHole: fields.length({
      about: 'Width of the slots for the bolts.',
      min: 1,
      max: 60,
      default: 9,
    }),
    beyond: fields.length({
      about: 'Metal from the centre of a bolt to the free edge of its foot.',
      min: 1,
      max: 500,
      default: 18,
    }),
    pullUp: fields.length({
      about:
        'How far the feet stand over their mounting before the bolts pull them down; the slots are longer than wide by as much.',
      min: 0,
      max: 50,
      default: 3,
    }),
    holesCrown: fields.holes({
      about: 'Holes in the crown over a box',
      axes: [between('side A', 'side B'), FROM_LEFT],
    }),
    holesA: fields.holes({ about: 'Holes in side A', axes: SIDE_AXES }),
    holesB: fields.holes({ about: 'Holes in side B', axes: SIDE_AXES }),
  },
  cautions: ['sharp-edges', 'load-bearing'],
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
