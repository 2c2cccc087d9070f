import { defineTemplate } from '../../src/template.ts';
import { tank } from './build.ts';
import { EXAMPLES } from './examples.ts';
import { inputs } from './inputs.ts';

/** A tank made from a folded wrap, two plates at its sides, a top sheet and baffles. */
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
  // The corners of flanges are welded up tight, so the less is cut out of them the better.
  defaults: { relief: 'slit' },
  cautions: ['fuel-tank', 'leak-test', 'sharp-edges', 'weld-heat'],
  examples: EXAMPLES,
  build: tank,
});
