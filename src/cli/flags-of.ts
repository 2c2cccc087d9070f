import { COMMANDS } from './commands/index.ts';
import type { Console } from './console.ts';
import { type Flags, type FlagSpecs, parseFlags } from './flags.ts';

/** What a command says of itself, and what it takes. */
export interface CommandLine {
  /** Behind the program's name. */
  readonly usage: string;
  /** In place of the line on the first help page. */
  readonly about?: string;
  /** In place of the command's own, as it is typed. */
  readonly example?: string;
  readonly flags: FlagSpecs;
  /** How many words stand in front of the flags, the command's name being the first. */
  readonly words: number;
}

/** The flags of one command, checked; `undefined` when help was asked for and printed. */
export const flagsOf = async (args: readonly string[], console: Console, { usage, about, example, flags, words }: CommandLine): Promise<Flags | undefined> => {
  if (!args.includes('--help')) return parseFlags(args, flags, words);
  const command = COMMANDS[args[0] ?? ''];
  const [{ commandHelp }, { typed }] = [await import('./help.ts'), await import('./terminal.ts')];
  answer(console, args, 'help', await commandHelp({ usage, about: about ?? command?.about ?? '', flags, example: example ?? typed(command?.example ?? '') }));
  return undefined;
};

/** A flag's value before the flags are parsed: what flags there are depends on it. */
export const valueOf = (args: readonly string[], flag: string): string | undefined => {
  const at = args.findIndex((a) => a === `--${flag}` || a.startsWith(`--${flag}=`));
  if (at < 0) return undefined;
  return args[at]?.includes('=') === true ? args[at].slice(flag.length + 3) : args[at + 1];
};

/** The word behind the command's name; `undefined` when a flag stands there, or nothing. */
export const wordOf = ([, word]: readonly string[]): string | undefined => (word === undefined || word.startsWith('-') ? undefined : word);

/** A text that is asked for as such; in JSON under the name of what it is. */
export const answer = ({ out }: Console, args: readonly string[], name: 'help' | 'version', text: string): void => {
  out(args.includes('--json') ? JSON.stringify({ [name]: text }) : text);
};
