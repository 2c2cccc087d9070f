import { availableParallelism } from 'node:os';
import { readStrip, STRIP_ALLOWED } from '../../use/lay/lay-strip.ts';
import { stripText } from '../../use/lay/strip-text.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { type Flags, type FlagSpecs, textOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { secondsOf, wholeOf } from '../lay/lay-flags.ts';
import { searchStrip } from '../lay/run-threads.ts';
import { readTextFile } from '../read-text-file.ts';
import type { RunCommand } from './index.ts';

const LAY_USAGE = 'lay --strip FILE';

const LAY_FLAGS = {
  strip: {
    type: 'string',
    describe:
      'JSON file of a strip of some width, and of what is laid on as little of it as can be',
  },
  time: { type: 'string', describe: 'How long it may search: 10s, 2min; 10s when left out' },
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
 * `lay --strip FILE`: lays everything on a strip and makes that shorter until the time is over, or
 * Ctrl+C. JSON: `StripResult`.
 */
export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, { usage: LAY_USAGE, flags: LAY_FLAGS, words: 1 });
  if (flags === undefined) return EXIT.made;
  const file = textOf(flags, 'strip');
  if (file === undefined)
    throw new WrongInput([
      {
        input: '--strip',
        given: 'nothing',
        allowed: `the name of ${STRIP_ALLOWED}: blankwright ${LAY_USAGE}`,
      },
    ]);
  return runStrip(file, flags, console);
};

/** Limit on the size of a file of a strip, enough for two thousand outlines. */
const LARGEST_BYTES = 5_000_000;

const runStrip = async (file: string, flags: Flags, console: Console): Promise<number> => {
  const steps = wholeOf(flags, 'steps', 1, 1e12);
  const seconds = steps === undefined ? (secondsOf(flags, 'time') ?? 10) : undefined;
  const seed = wholeOf(flags, 'seed', 0, 2 ** 32) ?? 1;
  const threads =
    wholeOf(flags, 'threads', 1, 64) ?? (steps === undefined ? availableParallelism() : 1);
  const text = await readTextFile(file, {
    input: 'strip',
    allowed: STRIP_ALLOWED,
    tooLarge: 'give fewer items',
    mostBytes: LARGEST_BYTES,
  });
  const read = readStrip(text);
  if (!read.ok) throw new WrongInput(read.problems);
  const isJson = flags['json'] === true;
  const result = await searchStrip({
    text,
    seed,
    threads,
    steps,
    seconds,
    onBetter: (usedLength, densityPercent) => {
      if (!isJson) console.err(`${usedLength.toFixed(2)} long, ${densityPercent.toFixed(2)} %`);
    },
  });
  console.out(isJson ? JSON.stringify(result) : stripText(result));
  return EXIT.made;
};
