import { buildPanels, defineTemplate } from '../../src/template.ts';
import { inputs } from './inputs.ts';

/** Any part at all: a base, and flanges on any edge of any panel. */
export default defineTemplate({
  family: 'panels',
  summary: 'Any part: a base with flanges grown on any edge of any panel.',
  sketch: String.raw`
            __________                      end
           |   lip    | on: lid end       ________
           |- - - - - |                  /        \
           |   lid    | on: base top     |  left   | right
     ______|- - - - - |                  |         |
    |      |   top    |                   - - - - -
    | ear  |left      |                     foot
    |______|    right |     A flange is seen from the panel
           |  bottom  |     that it grows on: foot below,
           |__________|     end above.
               base
`,
  inputs,
  cautions: ['sharp-edges'],
  examples: [
    {
      title: 'A plate with one ear and a return on it',
      inputs: {
        name: 'ear-plate',
        base: '120 x 80 holes 20,20,M6; 100,20,M6',
        flanges: [
          'ear on right 40 90 up from 10 to 50 holes from foot 25, middle, M8',
          'return on ear end 15 90 down',
          'lip on top 12 90 up from 20 to 100',
        ],
        thickness: 2,
      },
    },
  ],
  problems: (v) => buildPanels(v, v).problems,
  build: (v) => buildPanels(v, v).built,
});
