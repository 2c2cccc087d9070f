import { defineTemplate } from '../../src/template.ts';
import { baffleSet } from './set.ts';
import { inputs } from './inputs.ts';

/**
 * A baffle: a plate across a tank with flanges to its walls, flow holes, and corners cut for flow
 * and air.
 */
export default defineTemplate({
  family: 'baffle',
  summary:
    'Baffle of a tank: flanges, flow holes, cut corners; how many, where, and the volume of each bay.',
  sketch: String.raw`
        seen from the deep end              along the tank
  ^      vent  ________  vent        _________________________
  |         __/        \__          |        |        |       | height
  |        | |  o   o   | |         |        |       _|____---  Shallow
 height    | |    o     | | flange  |       _|____---
  |        | |  o   o   | |         |____---
  |        |__          __|
  V     limber \________/ limber    deep end: the flanges point to it
               |________|
                flange              <------- tankLength ------>
           <--- width --->
`,
  inputs,
  cautions: ['fuel-tank', 'sharp-edges', 'weld-heat'],
  examples: [
    {
      title: 'Two baffles for the spray tank of the cart, three bays of 300',
      inputs: {
        name: 'spray-tank-baffle',
        width: 400,
        height: 300,
        tankLength: 904,
        longestBay: 300,
        material: '5754-h111',
        thickness: 2,
        radius: 3,
      },
    },
    {
      title:
        'One baffle for a folded tank with round corners at the floor, six large holes, an upright swage and a pipe through it',
      inputs: {
        name: 'rinse-tank-baffle',
        width: 320,
        height: 240,
        wallRadius: 35,
        roofRadius: 0,
        flangeRoof: true,
        limber: 40,
        vent: 20,
        holeDiameter: 45,
        holeCount: 6,
        swage: 'upright',
        material: '1.4301',
        thickness: 1.5,
        cornerRadius: 5,
        holesPanel: '120,22,12',
      },
    },
    {
      title:
        'Odd on purpose: wedge under the seat box whose floor also falls to the left, each baffle of its own depth, one hand for each side of the cart',
      inputs: {
        name: 'seat-box-baffle',
        width: '12in',
        height: 260,
        heightRight: 230,
        heightShallow: 150,
        tankLength: 700,
        longestBay: 250,
        clearance: 1.5,
        flange: 18,
        measure: 'inside',
        material: 'dc01',
        thickness: 1.5,
        holeDiameter: 32,
        openPercent: 14,
        hand: 'both',
      },
    },
  ],
  build: baffleSet,
});
