import parser from 'yargs-parser';
import { nearest, nearestFew } from '../text/nearest.ts';
import type { InputProblem } from '../forms/problem.ts';
import { WrongInput } from './failure.ts';

/**
 * One flag, in the form that the help printer takes too. Texts stay texts, since the readers of
 * inputs know their notations.
 */
export interface FlagSpec {
  readonly type: 'string' | 'boolean';
  readonly describe: string;
  readonly group?: string;
  /** It may be given again and again. */
  readonly isRepeated?: true;
}

/** Flags by name, without their hyphens. */
export type FlagSpecs = Readonly<Record<string, FlagSpec>>;

/** The flags every command takes. */
export const COMMON_FLAGS: FlagSpecs = {
  json: { type: 'boolean', describe: 'Print one JSON document and nothing else' },
  debug: { type: 'boolean', describe: 'Print the stack trace of an internal error' },
};

/**
 * Reads the flags of one command and its words, of which it takes `words`; `help` is the command
 * line that lists its flags. The parser is the one that yargs itself uses; the rest of yargs takes
 * as long to load as half a bare Node, and is needed only to print help.
 */
export const parseFlags = (
  args: readonly string[],
  own: FlagSpecs,
  words: number,
  help: string,
): Flags => {
  const specs = { ...own, ...COMMON_FLAGS };
  const names = (type: FlagSpec['type']): string[] =>
    Object.keys(specs).filter((name) => specs[name]?.type === type);
  const texts = names('string');
  const flags = parser(withMinusJoined(args, texts), {
    string: texts,
    boolean: names('boolean'),
    configuration: {
      'camel-case-expansion': false,
      'parse-numbers': false,
      'parse-positional-numbers': false,
      'dot-notation': false,
      'boolean-negation': false,
      'short-option-groups': false,
    },
  }) as Flags;
  checkFlags(
    flags,
    { names: Object.keys(specs), repeated: repeatedIn(specs), help },
    words,
    switchesWithValue(args, names('boolean')),
  );
  return flags;
};

/**
 * The parser takes `-5mm` for a flag. Behind a flag that needs a text it is a value, and the
 * readers say what is wrong with it.
 */
const withMinusJoined = (args: readonly string[], texts: readonly string[]): string[] => {
  const joined: string[] = [];
  for (const arg of args) {
    const flag = joined.at(-1);
    const wantsText = flag?.startsWith('--') === true && texts.includes(flag.slice(2));
    if (wantsText && /^-[\d.(]/.test(arg)) joined[joined.length - 1] = `${flag}=${arg}`;
    else joined.push(arg);
  }
  return joined;
};

const repeatedIn = (specs: FlagSpecs): readonly string[] =>
  Object.keys(specs).filter((name) => specs[name]?.isRepeated === true);

/** Key that the parser adds for the words. */
const WORDS = '_';

/** Parsed flags, by name as typed, without their hyphens. */
export type Flags = Readonly<Record<string, unknown>>;

/** The flags of a command by name, and the command line that lists them. */
interface KnownFlags {
  readonly names: readonly string[];
  /** Those that may be given again and again. */
  readonly repeated: readonly string[];
  readonly help: string;
}

/**
 * Refuses unknown flags, naming the nearest known ones, and flags given twice. Every problem is
 * told at once.
 */
const checkFlags = (
  flags: Flags,
  known: KnownFlags,
  words: number,
  switches: readonly InputProblem[],
): void => {
  const problems: InputProblem[] = [...switches];
  for (const [name, value] of Object.entries(flags)) {
    if (name === WORDS) continue;
    if (!known.names.includes(name)) problems.push(unknown(name, known));
    else if (Array.isArray(value) && !known.repeated.includes(name))
      problems.push({ input: `--${name}`, given: `${value.length} times`, allowed: 'once' });
    else if (value === '' || (Array.isArray(value) && value.includes('')))
      problems.push({
        input: `--${name}`,
        given: 'nothing',
        allowed: 'a value',
        mend: 'write it behind the flag',
      });
  }
  const extra = (flags[WORDS] as readonly unknown[]).slice(words);
  for (const word of extra)
    problems.push({
      input: 'command line',
      given: `'${String(word)}'`,
      allowed: 'flags that begin with --',
      mend: 'put a value that has spaces in quotes',
    });
  if (problems.length > 0) throw new WrongInput(problems);
};

/** The parser takes `--force=maybe` for `--force=false` and says nothing. */
const switchesWithValue = (args: readonly string[], names: readonly string[]): InputProblem[] =>
  args.flatMap((arg) => {
    const name = names.find((n) => arg.startsWith(`--${n}=`));
    return name === undefined
      ? []
      : [
          {
            input: `--${name}`,
            given: `'${arg.slice(name.length + 3)}'`,
            allowed: 'the flag alone, which switches it on',
            mend: `write --${name}, or leave it out`,
          },
        ];
  });

/** Most flags that are told of a command that has more. */
const MOST_TOLD = 3;

const unknown = (name: string, { names, help }: KnownFlags): InputProblem => {
  const dashes = name.length === 1 ? '-' : '--';
  const meant = nearest(name, names);
  const few = nearestFew(name, names, MOST_TOLD)
    .map((k) => `--${k}`)
    .join(', ');
  return {
    input: `${dashes}${name}`,
    given: 'a flag this command does not know',
    allowed: `flags such as ${few}; ${help} lists all ${names.length}`,
    ...(meant === undefined ? {} : { mend: `did you mean --${meant}?` }),
  };
};

/**
 * The word behind the command's name, or a later one, wherever it stands between the flags;
 * `undefined` when there is none.
 */
export const wordOf = (flags: Flags, place = 1): string | undefined => {
  const word = (flags[WORDS] as readonly unknown[])[place];
  return typeof word === 'string' ? word : undefined;
};

/** All words behind the command's name. */
export const wordsOf = (flags: Flags): readonly string[] =>
  (flags[WORDS] as readonly unknown[]).slice(1).map(String);

/** A flag's text, `undefined` when it was not given. */
export const textOf = (flags: Flags, name: string): string | undefined => {
  const value = flags[name];
  return typeof value === 'string' ? value : undefined;
};
