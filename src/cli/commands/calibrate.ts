import { inLines } from '../terminal.ts';
import { calibrateStrips } from '../../use/calibrate/calibrate-strips.ts';
import { CALIBRATE_HOW_TO, calibrateText } from '../../use/calibrate/calibrate-text.ts';
import { askStrips } from '../ask-strips.ts';
import { standardDialogue } from '../dialogue.ts';
import { EXIT, WrongInput } from '../failure.ts';
import type { Console } from '../console.ts';
import { type Flags, type FlagSpecs, textOf, wordOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { readTextFile } from '../read-text-file.ts';
import { saveBends } from '../save-bends.ts';
import type { RunCommand } from './index.ts';

export const CALIBRATE_USAGE = 'calibrate [STRIPS.yaml|STRIPS.csv|tube BENDS.yaml]';

export const CALIBRATE_FLAGS = {
  ask: {
    type: 'boolean',
    describe: 'Ask for the strips one by one and add them to the file first',
  },
  save: {
    type: 'string',
    describe:
      'Shop file to write the results to, by material, thickness and tool; made when there is none',
  },
} as const satisfies FlagSpecs;

/**
 * `calibrate`: K and inside radius from measured strips, with their uncertainty. JSON:
 * `CalibrateResult`. Without a file it tells how to make and measure the strips. Where the strips
 * give no fit, the command ends as for a part that cannot be made. `calibrate tube` is of tube benders.
 */
export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, {
    usage: CALIBRATE_USAGE,
    flags: CALIBRATE_FLAGS,
    words: args[1] === TUBE ? 3 : 2,
  });
  if (flags === undefined) return EXIT.made;
  if (args[1] === TUBE) return tube(flags, console);
  const [file, save, json] = [wordOf(flags), textOf(flags, 'save'), flags['json'] === true];
  if (flags['ask'] === true) await askFor(file);
  if (file === undefined) {
    console.out(json ? JSON.stringify({ howTo: CALIBRATE_HOW_TO }) : CALIBRATE_HOW_TO);
    return EXIT.made;
  }
  const text = await readTextFile(file, {
    input: 'strips',
    allowed: 'a YAML or CSV file of measured strips',
    tooLarge: 'give the strips of one machine only',
  });
  const found = calibrateStrips(text, /\.csv$/i.test(file) ? 'csv' : 'yaml');
  if (!found.ok) throw new WrongInput(found.problems);
  const { result, measured } = found;
  const isSaved = save !== undefined && measured.length > 0;
  const told = { ...result, saved: isSaved ? await saveBends(save, measured) : null };
  console.out(json ? JSON.stringify(told) : inLines(calibrateText(told)));
  return result.bends.every((lot) => lot.fit !== undefined) ? EXIT.made : EXIT.stopped;
};

/** The word for benders of tube in place of a file of strips. */
const TUBE = 'tube';

const tube = async (flags: Flags, console: Console): Promise<number> => {
  const { runCalibrateTube } = await import('../calibrate-tube.ts');
  const [file, save] = [wordOf(flags, 2), textOf(flags, 'save')];
  return runCalibrateTube({ file, save, json: flags['json'] === true }, console);
};

const askFor = async (file: string | undefined): Promise<void> => {
  if (file === undefined)
    throw new WrongInput([
      {
        input: '--ask',
        given: 'no file',
        allowed:
          'the name of the file that keeps the strips: blankwright calibrate strips.yaml --ask',
      },
    ]);
  const dialogue = standardDialogue();
  await askStrips(file, dialogue);
  dialogue.close();
};
