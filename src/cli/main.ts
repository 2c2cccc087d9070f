import { nearest } from '../text/nearest.ts';
import { COMMANDS } from './commands/index.ts';
import type { Console } from './console.ts';
import { DiskRefused, EXIT, WrongInput } from './failure.ts';
import { COMMON_FLAGS } from './flags.ts';
import { answer } from './flags-of.ts';
import { VERSION } from './version.ts';

/** Runs one command line and returns its exit code; it never throws. */
export const run = async (given: readonly string[], console: Console): Promise<number> => {
  const args = commandFirst(given);
  try {
    return await dispatch(args, console);
  } catch (error) {
    return failed(error, args, console);
  }
};

/** A command line with the command moved in front of flags that stand before it. */
const commandFirst = (args: readonly string[]): readonly string[] => {
  const isFlag = (arg: string | undefined): boolean => arg?.startsWith('-') === true;
  if (!isFlag(args[0])) return args;
  // A name behind a flag may be the flag's value; a name that is not is preferred.
  const isFree = (i: number): boolean =>
    !isFlag(args[i - 1]) || Object.keys(COMMON_FLAGS).some((name) => args[i - 1] === `--${name}`);
  const named = args.flatMap((arg, i) => (Object.hasOwn(COMMANDS, arg) ? [i] : []));
  const at = named.find(isFree) ?? named[0] ?? args.findIndex((arg) => !isFlag(arg));
  return at < 0 ? args : [args[at] as string, ...args.slice(0, at), ...args.slice(at + 1)];
};

const dispatch = async (args: readonly string[], console: Console): Promise<number> => {
  const [first] = args;
  if (args.includes('--version')) {
    answer(console, args, 'version', VERSION);
    return EXIT.made;
  }
  const command =
    first !== undefined && Object.hasOwn(COMMANDS, first) ? COMMANDS[first] : undefined;
  if (command !== undefined) return (await command.load()).run(args, console);
  if (first !== undefined && !args.includes('--help')) throw unknownCommand(first);
  answer(console, args, 'help', await (await import('./help.ts')).overviewHelp(COMMANDS));
  return EXIT.made;
};

const unknownCommand = (given: string): WrongInput => {
  const names = Object.keys(COMMANDS);
  const meant = nearest(given, names);
  return new WrongInput([
    {
      input: 'command',
      given: `'${given}'`,
      allowed: names.join(', '),
      mend: meant === undefined ? 'see blankwright --help' : `did you mean ${meant}?`,
    },
  ]);
};

/**
 * Tells what went wrong. JSON, when the input is wrong or the disk refuses:
 * `{"problems":[{"input","given","allowed","mend"}]}`; `mend` may be absent.
 */
const failed = (error: unknown, args: readonly string[], { out, err }: Console): number => {
  if (error instanceof WrongInput) {
    if (args.includes('--json')) out(JSON.stringify({ problems: error.problems }));
    else err(error.message);
    return EXIT.wrongInput;
  }
  if (error instanceof DiskRefused) {
    if (args.includes('--json')) out(JSON.stringify({ problems: [error.problem] }));
    else err(error.message);
    return EXIT.disk;
  }
  err(
    `Internal error, which is a fault of blankwright: ${error instanceof Error ? error.message : String(error)}`,
  );
  err(
    args.includes('--debug') && error instanceof Error
      ? (error.stack ?? '')
      : 'Run again with --debug for the details to report.',
  );
  return 70;
};
