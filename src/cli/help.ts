import yargs, { type Argv } from 'yargs';
import { columns, typed } from './terminal.ts';
import type { Command } from './commands/index.ts';
import { COMMON_FLAGS, type FlagSpecs } from './flags.ts';

/** Contents of the help of one command. */
export interface CommandHelp {
  /** Usage line, behind the program's name. */
  readonly usage: string;
  readonly about: string;
  readonly flags: FlagSpecs;
  /** An example command line that works, as typed. */
  readonly example: string;
}

const page = (): Argv =>
  yargs([])
    .locale('en')
    .scriptName('blankwright')
    .version(false)
    .help(false)
    .exitProcess(false)
    .wrap(columns());

/** The page of one command. */
export const commandHelp = ({ usage, about, flags, example }: CommandHelp): Promise<string> =>
  page()
    .usage(`blankwright ${usage}\n\n${about}`)
    .options({ ...flags, ...COMMON_FLAGS })
    .getHelp()
    .then((text) => `${text}\n\nExample:\n${example}`);

const MEASURES =
  'Lengths are outside dimensions in mm unless told otherwise: a leg is measured from its free edge to where the outside ' +
  'faces meet (mould line), and to the outermost tangent of a bend over 90 degrees, as DIN 6935 measures it; ' +
  '--measure inside takes inside dimensions by the same logic.';

/** The first page: all commands. */
export const overviewHelp = (commands: Readonly<Record<string, Command>>): Promise<string> => {
  const help = page().usage(
    'Turns dimensions measured on a job into sheet-metal blanks that fold to fit.',
  );
  for (const [name, { about, words }] of Object.entries(commands))
    help.command(words === undefined ? name : `${name} ${words}`, about);
  return help
    .options(COMMON_FLAGS)
    .epilogue(
      `blankwright COMMAND --help says more. Behind every finding stands its rule, such as [web-too-thin]: blankwright reason web-too-thin tells why and what to do.\n\n${MEASURES}\n\nExit codes: 0 made, 1 the part cannot be made, 2 wrong input, 3 the disk refused.`,
    )
    .getHelp()
    .then((text) => `${text}\n\nExample:\n${typed(commands['make']?.example ?? '')}`);
};
