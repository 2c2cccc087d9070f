import { defineTemplate } from '../../src/template.ts';
import { tankSections } from './build.ts';
import { EXAMPLES } from './examples.ts';
import { inputs } from './inputs.ts';

/** A tank for a space of which the cross-section was measured at two or more stations. */
export default defineTemplate({
  family: 'tank-sections',
  summary:
    'Tank by measured cross-sections at stations, walls straight between them; ends, baffles, fittings, dip table.',
  sketch: String.raw`
    section at station 0       section at station 600    from the side
     4 ____________ 3            4 ________ 3         ____
      |   wall 3   |              | wall 3 |         |    ---____
      |            |              |        |         |           |
      |     wall 2 |              | wall 2 |         |       __--|
      |____________|              |________|         |____---
     1   wall 1     2            1          2        0          600
                                                      stations ->
   Each is seen from the last station, and begins at the same corner
   of the space: wall 1 runs from corner 1 to corner 2 of them all.
`,
  inputs,
  // Its corners are folds and welds.
  when: { cornerRadius: [], cornerChamfer: [] },
  cautions: ['fuel-tank', 'leak-test', 'sharp-edges', 'weld-heat'],
  examples: EXAMPLES,
  build: tankSections,
});
