import { COMMANDS } from './commands/index.ts';
import type { Console } from './console.ts';
import { COMMON_FLAGS, type Flags, type FlagSpecs, parseFlags } from './flags.ts';

/** A command's help, and what it takes. */
export interface CommandLine {
  /** Usage line, behind the program's name. */
  readonly usage: string;
  /** Text in place of the line on the first help page. */
  readonly about?: string;
  /** Example in place of the command's own, as typed. */
  readonly example?: string;
  readonly flags: FlagSpecs;
  /** How many words it takes, the command's name being the first. */
  readonly words: number;
  /**
   * Command line whose `--help` lists the flags, behind the program's name; the command alone when
   * left out.
   */
  readonly of?: string;
}

/** The flags of one command, checked; `undefined` when help was asked for and printed. */
export const flagsOf = async (
  args: readonly string[],
  console: Console,
  { usage, about, example, flags, words, of = args[0] ?? '' }: CommandLine,
): Promise<Flags | undefined> => {
  if (!args.includes('--help')) return parseFlags(args, flags, words, `blankwright ${of} --help`);
  const command = COMMANDS[args[0] ?? ''];
  const [{ commandHelp }, { typed }] = [await import('./help.ts'), await import('./terminal.ts')];
  answer(
    console,
    args,
    'help',
    await commandHelp({
      usage,
      about: about ?? command?.about ?? '',
      flags,
      example: example ?? typed(command?.example ?? ''),
    }),
  );
  return undefined;
};

/**
 * A flag's value before the flags are parsed, if it has one. It is read early because it decides
 * which flags there are.
 */
export const valueOf = (args: readonly string[], flag: string): string | undefined => {
  const at = args.findIndex((a) => a === `--${flag}` || a.startsWith(`--${flag}=`));
  const value = args[at]?.includes('=') === true ? args[at].slice(flag.length + 3) : args[at + 1];
  return at < 0 || value === '' || value?.startsWith('-') === true ? undefined : value;
};

/**
 * A command line with its words in front of its flags, before these are parsed, because the words
 * decide which flags there are. A flag that is no switch takes the word behind it.
 */
export const wordsFirst = (args: readonly string[], own: FlagSpecs): string[] => {
  const specs: FlagSpecs = { ...own, ...COMMON_FLAGS, help: { type: 'boolean', describe: '' } };
  const isSwitch = (flag: string): boolean =>
    flag.includes('=') || specs[flag.replace(/^--/, '')]?.type === 'boolean';
  const words: string[] = [];
  const flags: string[] = [];
  let wantsValue = false;
  for (const arg of args) {
    // The parser does the same: behind a flag, `-5` is a value.
    const isFlag: boolean = arg.startsWith('-') && !(wantsValue && /^-[\d.(]/.test(arg));
    (isFlag || wantsValue ? flags : words).push(arg);
    wantsValue = isFlag && !isSwitch(arg);
  }
  return [...words, ...flags];
};

/** A text as the answer; with `--json`, under a name that says what it is. */
export const answer = (
  { out }: Console,
  args: readonly string[],
  name: 'help' | 'version',
  text: string,
): void => {
  out(args.includes('--json') ? JSON.stringify({ [name]: text }) : text);
};
