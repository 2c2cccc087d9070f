import { buildPanels, defineTemplate } from '../../src/template.ts';
import { piecesExamples } from './examples-pieces.ts';
import { examples } from './examples.ts';
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
  examples: [...examples, ...piecesExamples],
  problems: (v) => buildPanels(v, v).problems,
  build: (v) => buildPanels(v, v).built,
});
