import { nearest } from '../nearest.ts';
import type { InputProblem } from '../input/problem.ts';
import { WrongInput } from './failure.ts';

/** The flags every command takes. */
export const COMMON_FLAGS = {
  json: { type: 'boolean', default: false, describe: 'Print one JSON document and nothing else' },
  debug: { type: 'boolean', default: false, describe: 'Print the stack trace of an internal error' },
} as const;

/** What yargs adds of its own. */
const BUILT_IN = ['help', 'version', '$0', '_'];

/** Parsed flags, by name as typed, without their hyphens. */
export type Flags = Readonly<Record<string, unknown>>;

/**
 * Refuses flags that are not known, with the nearest one that is, and flags given twice. Every problem at once.
 */
export const checkFlags = (flags: Flags, known: readonly string[], words: number): void => {
  const problems: InputProblem[] = [];
  for (const [name, value] of Object.entries(flags)) {
    if (BUILT_IN.includes(name)) continue;
    if (!known.includes(name)) problems.push(unknown(name, known));
    else if (Array.isArray(value)) problems.push({ input: `--${name}`, given: `${value.length} times`, allowed: 'once' });
    else if (value === '') problems.push({ input: `--${name}`, given: 'nothing', allowed: 'a value', mend: 'write it behind the flag' });
  }
  const extra = (flags['_'] as readonly unknown[]).slice(words);
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
  return value === undefined ? undefined : String(value);
};
