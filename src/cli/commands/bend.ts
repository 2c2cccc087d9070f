import { inLines } from '../terminal.ts';
import { BEND_RULES } from '../../bending/rule.ts';
import { bendSums } from '../../use/bend/bend-sums.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { type FlagSpecs, textOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import type { RunCommand } from './index.ts';

/** Flags of `bend`, for help. */
export const BEND_FLAGS = {
  thickness: { type: 'string', describe: 'Thickness of the sheet, such as 3 or 1/8in' },
  radius: { type: 'string', describe: 'Inside radius; the thickness when left out' },
  angle: {
    type: 'string',
    describe: 'How far the metal is turned, 0 to 180 degrees; 90 when left out',
  },
  rule: {
    type: 'string',
    describe: `Bend rule, din6935 when left out. ${BEND_RULES.map(({ text, about, range }) => `${text}: ${about}; for ${range}`).join('. ')}`,
  },
  teardrop: {
    type: 'string',
    describe:
      'Depth of a teardrop hem, from its edge to the outermost point of its loop; the radius is that of the loop',
  },
  measure: { type: 'string', describe: 'outside or inside dimensions; outside when left out' },
} as const satisfies FlagSpecs;

export const BEND_USAGE = 'bend --thickness 3 --radius 3 --angle 90 --rule din6935';

/** `bend`: the sums of one bend, worked out as on paper, with remarks. JSON: `BendSums`. */
export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, { usage: BEND_USAGE, flags: BEND_FLAGS, words: 1 });
  if (flags === undefined) return EXIT.made;
  const worked = bendSums({
    thickness: textOf(flags, 'thickness'),
    radius: textOf(flags, 'radius'),
    angle: textOf(flags, 'angle'),
    teardrop: textOf(flags, 'teardrop'),
    rule: textOf(flags, 'rule'),
    measure: textOf(flags, 'measure'),
  });
  if (!worked.ok) throw new WrongInput(worked.problems);
  console.out(
    flags['json'] === true ? JSON.stringify(worked.result) : inLines(worked.lines.join('\n')),
  );
  return EXIT.made;
};
