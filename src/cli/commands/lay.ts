import { EXIT, WrongInput } from '../failure.ts';
import { type FlagSpecs, textOf, wordsOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import type { RunCommand } from './index.ts';

const LAY_USAGE = 'lay JOB.yaml';

const LAY_FLAGS = {
  shop: {
    type: 'string',
    describe:
      "Shop file with the stock; else that of the job, shop.yaml beside it, then the user's own",
  },
  out: { type: 'string', describe: 'Folder to write to; laid/ when left out' },
  force: {
    type: 'boolean',
    describe: 'Replace files that were not made by this command for this job',
  },
  parts: {
    type: 'boolean',
    describe:
      'The words are DXF files of parts and not a job, each with how many behind it: flange.dxf x3',
  },
  material: { type: 'string', describe: 'Material of the parts of --parts; s275 when left out' },
  thickness: { type: 'string', describe: 'Thickness of the sheet for --parts' },
  turn: {
    type: 'string',
    describe:
      'Turns that parts may be laid in: 0 as drawn, 180 end for end too, 90 quarter turns, any; 90 when left out',
  },
  gap: {
    type: 'string',
    describe: 'Least distance between parts; the cut and the least web of the cutter when left out',
  },
  edge: {
    type: 'string',
    describe: 'Least distance from edges of sheets; as the gap when left out',
  },
  clamps: {
    type: 'string',
    describe:
      'Width along the lower edge of sheets and remnants that clamps hold; that of the cutter when left out',
  },
  'good-face': {
    type: 'boolean',
    describe: 'One face of the sheet is brushed or coated: no part is turned over',
  },
  take: {
    type: 'boolean',
    describe: 'Book what is cut in the shop file, and write what is left of it there as remnants',
  },
  'take-back': { type: 'boolean', describe: 'Take back what was booked last, and lay nothing' },
  again: { type: 'boolean', describe: 'With --take: the same parts are cut once more' },
  keep: {
    type: 'string',
    describe:
      'With --take: keep rectangles of what is left, or its outline; rectangles when left out',
  },
  'stock-only': { type: 'boolean', describe: 'Lay on what is in stock, and buy nothing' },
  first: { type: 'string', describe: 'Names of parts that are laid before others, with commas' },
  together: {
    type: 'string',
    describe: 'Names of parts that come onto one sheet, with commas; again for others',
    isRepeated: true,
  },
  strip: {
    type: 'string',
    describe:
      'JSON file of a strip of some width, and of what is laid on as little of it as can be',
  },
  time: {
    type: 'string',
    describe: 'How long it may search for each material: 10s, 2min; 10s when left out',
  },
  steps: {
    type: 'string',
    describe: 'How many steps it may make in place of a time: the same layout at every run',
  },
  seed: { type: 'string', describe: 'Number that chance begins with; 1 when left out' },
  threads: {
    type: 'string',
    describe: 'How many searches run side by side; as many as there are cores, or one with --steps',
  },
} as const satisfies FlagSpecs;

/**
 * `lay JOB`: lays the parts of a job on the stock of the shop, until the time is over or Ctrl+C.
 * JSON: `LayResult`. `lay --strip FILE`: lays everything on as little of a strip as can be. JSON:
 * `StripResult`. Parts that are left make the command end as for a part that cannot be made.
 */
export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, {
    usage: LAY_USAGE,
    flags: LAY_FLAGS,
    words: Infinity,
  });
  if (flags === undefined) return EXIT.made;
  const words = wordsOf(flags);
  const strip = textOf(flags, 'strip');
  if (strip !== undefined) {
    const { runStrip } = await import('../lay/run-strip.ts');
    return runStrip(strip, flags, console);
  }
  if (flags['take-back'] === true) {
    const { runTakeBack } = await import('../lay/run-lay.ts');
    return runTakeBack(flags, console);
  }
  if (words.length === 0 || (words.length > 1 && flags['parts'] !== true))
    throw new WrongInput([
      {
        input: 'job',
        given: words.length === 0 ? 'nothing' : `${words.length} words`,
        allowed: `the name of a job file: blankwright ${LAY_USAGE}; or --parts FILE.dxf x3; or --strip FILE`,
      },
    ]);
  const { runLay } = await import('../lay/run-lay.ts');
  return runLay(words, flags, console);
};
