import { defineTemplate } from '../../src/template.ts';
import { tankPlan } from './build.ts';
import { EXAMPLES } from './examples.ts';
import { inputs } from './inputs.ts';

/** A tank for the room that a vehicle leaves: any plan, floor and top at any slope. */
export default defineTemplate({
  family: 'tank-plan',
  summary:
    'Tank by a measured plan: any corners, floor and top that fall two ways, steps, leaning sides; dip table, sender, reserve.',
  sketch: String.raw`
        from above                       from the front
    4 ____________   3 c80            ____________________  top
     |   side 4    \                 |                    |
     |              \ side 3         |                    |
     |                |              |               __---  floor
     | side 5         |              |         __----     (heights at
     |                | side 2       |   __----            three places
     |________________|              |---                  or more)
    1     side 1      2         ...................... zero: one level
                                                   for all heights
   The sides are counted as the outline runs round, a corner that is
   cut off being a side of its own; corner 1 is where side 1 begins.
`,
  inputs,
  // Its corners are folds and welds.
  when: { cornerRadius: [], cornerChamfer: [] },
  // The corners of a pan are welded up tight, so the less is cut out of them the better.
  defaults: { relief: 'slit' },
  cautions: ['fuel-tank', 'leak-test', 'sharp-edges', 'weld-heat'],
  examples: EXAMPLES,
  build: tankPlan,
});
