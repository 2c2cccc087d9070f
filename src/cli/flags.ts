import parser from 'yargs-parser';
import { nearest } from '../nearest.ts';
import type { InputProblem } from '../input/problem.ts';
import { WrongInput } from './failure.ts';

/** One flag, in the form the help printer takes too. Texts stay texts: the readers of inputs know their notations. */
export interface FlagSpec {
  readonly type: 'string' | 'boolean';
  readonly describe: string;
  readonly group?: string;
}

/** Flags by name, without their hyphens. */
export type FlagSpecs = Readonly<Record<string, FlagSpec>>;

/** The flags every command takes. */
export const COMMON_FLAGS: FlagSpecs = {
  json: { type: 'boolean', describe: 'Print one JSON document and nothing else' },
  debug: { type: 'boolean', describe: 'Print the stack trace of an internal error' },
};

/**
 * Reads the flags of one command, after its first `words` words. This is the parser that yargs itself uses; the rest
 * of yargs takes as long to load as half a bare Node, and is only needed to print help.
 */
export const parseFlags = (args: readonly string[], own: FlagSpecs, words: number): Flags => {
  const specs = { ...own, ...COMMON_FLAGS };
  const names = (type: FlagSpec['type']): string[] => Object.keys(specs).filter((name) => specs[name]?.type === type);
  const flags = parser([...args], {
    string: names('string'),
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
  checkFlags(flags, Object.keys(specs), words);
  return flags;
};

/** What the parser adds of its own. */
const WORDS = '_';

/** Parsed flags, by name as typed, without their hyphens. */
export type Flags = Readonly<Record<string, unknown>>;

/**
 * Refuses flags that are not known, with the nearest one that is, and flags given twice. Every problem at once.
 */
const checkFlags = (flags: Flags, known: readonly string[], words: number): void => {
  const problems: InputProblem[] = [];
  for (const [name, value] of Object.entries(flags)) {
    if (name === WORDS) continue;
    if (!known.includes(name)) problems.push(unknown(name, known));
    else if (Array.isArray(value)) problems.push({ input: `--${name}`, given: `${value.length} times`, allowed: 'once' });
    else if (value === '') problems.push({ input: `--${name}`, given: 'nothing', allowed: 'a value', mend: 'write it behind the flag' });
  }
  const extra = (flags[WORDS] as readonly unknown[]).slice(words);
  for (const word of extra) problems.push({ input: 'command line', given: `'${String(word)}'`, allowed: 'flags that begin with --', mend: 'put a value that has spaces in quotes' });
  if (problems.length > 0) throw new WrongInput(problems);
};

const unknown = (name: string, known: readonly string[]): InputProblem => {
  const dashes = name.length === 1 ? '-' : '--';
  const meant = nearest(name, known);
  return {
    input: `${dashes}${name}`,
    given: 'a flag this command does not know',
    allowed: known.map((k) => `--${k}`).join(', '),
    ...(meant === undefined ? {} : { mend: `did you mean --${meant}?` }),
  };
};

/** A flag's text, `undefined` when it was not given. */
export const textOf = (flags: Flags, name: string): string | undefined => {
  const value = flags[name];
  return typeof value === 'string' ? value : undefined;
};
