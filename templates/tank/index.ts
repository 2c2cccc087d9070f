import { defineTemplate } from '../../src/template.ts';
import { tank } from './build.ts';
import { inputs } from './inputs.ts';

/** A tank out of a folded wrap, two plates at its sides, a top sheet and baffles. */
export default defineTemplate({
  family: 'tank',
  summary:
    'Tank, box or wedge: wrap, sides, top, baffles; volumes, dip tables, mass and range; single or a linked pair.',
  sketch: String.raw`
       from the right side                 seen from the deep end
  ____________________________ top      ______________________ top
  |       :         :         |         ||                    ||
  |    baffles      :       __| height  ||                    ||
  |       :      ___:---""""    Shallow ||left           right||
  |    ___:---"""   :                   || (flush, or with    ||
  |--"" floor                           ||  flanges outwards) ||
   \_ wrap: deep end, floor,            ||____________________||
      shallow end in one blank
  height at the deep end                 <------ width ------>
  <-------- length ---------->   The left is the left of whoever looks
                                 from the deep to the shallow end.
`,
  inputs,
  // The corners of flanges are welded up tight: the less is cut out of them the better.
  defaults: { relief: 'slit' },
  cautions: ['fuel-tank', 'sharp-edges', 'weld-heat'],
  examples: [
    {
      title: 'Box tank for the cart, 600 x 400 x 300 inside, one baffle, and a range',
      inputs: {
        name: 'cart-tank',
        length: 600,
        width: 400,
        height: 300,
        measure: 'inside',
        material: '5754-h111',
        thickness: 2,
        radius: 3,
        filler: '80,200,60',
        outlet: '30,200,22',
        return: '150,60,14',
        sender: '380,200,54',
        breather: '60,340,10',
        consumption: '8.5 l/100km',
      },
    },
    {
      title: 'Spray water under the loading bed, sides with weld flanges, tight bays',
      inputs: {
        name: 'spray-tank',
        length: 800,
        width: 450,
        height: 260,
        ends: 'flanged',
        endFlange: 18,
        longestBay: 250,
        material: '1.4301',
        thickness: 1.5,
        fluid: 'water',
        fillLimit: 98,
        filler: '100,225,102',
        outlet: '25,110,27',
        outletOn: 'right',
        consumption: '40 l/h',
        cornerRadius: 2,
      },
    },
    {
      title:
        'Odd on purpose: a linked pair of wedges either side of the propshaft, drawn from the deep end of one of them',
      inputs: {
        name: 'saddle-tank',
        length: '28in',
        width: 240,
        height: 320,
        heightShallow: 170,
        ends: 'flush',
        longestBay: 300,
        material: 'dc01',
        thickness: 1.5,
        filler: '70,120,60',
        outlet: '30,120,20',
        link: '60,90,35',
        pair: true,
        hand: 'both',
        breather: '200,40,10',
        consumption: 11,
        topSetback: 0,
        sender: '360,120,54',
      },
    },
  ],
  build: tank,
});
