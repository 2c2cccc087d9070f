import { defineTemplate } from '../../src/template.ts';
import { gusset } from './build.ts';
import { inputs } from './inputs.ts';

/**
 * A shelf bracket: an upright folded up from a base, with triangular cheeks folded up beside it and
 * welded to it.
 */
export default defineTemplate({
  family: 'bracket-gusset',
  summary: 'Shelf bracket: base and upright with triangular cheeks to be welded.',
  sketch: String.raw`
  seen from the left end                     flat
          _
         | |   ^                        +------------+
        /| |   |                        |  upright   |
      /  | | upright          _________ |- - -A- - - | _________
    /    | |   |              \        ||            ||        /
  /______| |   |                \      B|    base    |C      /
  |________/   v                  \____||            ||____/
     base                               |            |
                                        +------------+
  The cheeks run gussetDepth along          width
  the base and gussetHeight up.
`,
  inputs,
  cautions: ['sharp-edges', 'load-bearing', 'weld-heat'],
  examples: [
    {
      title: 'Shelf bracket for the spray tank',
      inputs: {
        name: 'tank-shelf',
        base: 120,
        upright: 140,
        width: 60,
        gussetDepth: 100,
        gussetHeight: 100,
        material: 's235',
        thickness: 3,
        radius: 3,
        holesUpright: '100,30,M10; 125,30,M10',
        holesBase: '70,30,M8',
      },
    },
    {
      title: 'Corner of the tool rack with a cheek on the outer side only, one for each end',
      inputs: {
        name: 'rack-corner',
        base: 60,
        upright: 60,
        width: 40,
        gussetDepth: 45,
        gussetHeight: 45,
        gussetSide: 'left',
        material: 'dc01',
        thickness: 2,
        hand: 'both',
        relief: 'square',
        holesBase: '30,25,6.6',
        holesUpright: '40,25,6.6',
      },
    },
    {
      title: 'Odd on purpose: cheeks as long as the base, with lightening holes, inside dimensions',
      inputs: {
        name: 'winch-rest',
        base: '4in',
        upright: 90,
        width: 150,
        gussetDepth: '4in',
        gussetHeight: 80,
        material: '5754-h111',
        thickness: 3,
        measure: 'inside',
        relief: 'slit',
        holesLeft: '22,30,16',
        holesRight: '22,30,16',
        cornerRadius: 10,
      },
    },
  ],
  build: gusset,
});
