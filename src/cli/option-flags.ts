import type { Field } from '../forms/field.ts';
import { choice } from '../forms/fields.ts';
import { shown } from '../forms/given.ts';
import type { Chosen } from '../forms/making.ts';
import type { InputProblem } from '../forms/problem.ts';
import { flagOf } from '../forms/input-name.ts';
import { WrongInput } from './failure.ts';
import { type Flags, type FlagSpec, type FlagSpecs, textOf } from './flags.ts';

type Fields = Readonly<Record<string, Field>>;

/** The flags by which fields are given, with their help. */
export const specsOf = (fields: Fields): FlagSpecs =>
  Object.fromEntries(
    Object.entries(fields).map(([name, { facts }]): [string, FlagSpec] => {
      const isSwitch = facts.kind === 'flag';
      const otherwise = facts.otherwise ?? facts.default;
      const about = facts.about.replace(/\.$/, '');
      return [
        flagOf(name),
        {
          type: isSwitch ? 'boolean' : 'string',
          describe:
            isSwitch || otherwise === undefined
              ? about
              : `${about}; ${String(otherwise)} when left out`,
        },
      ];
    }),
  );

/** The values of those flags. Throws `WrongInput` with all problems. */
export const saidIn = <F extends Fields>(fields: F, flags: Flags): Chosen<F> => {
  const said: Record<string, unknown> = {};
  const problems: InputProblem[] = [];
  for (const [name, field] of Object.entries(fields)) {
    const flag = flagOf(name);
    const read = field.read(flags[flag]);
    if (read.ok) said[name] = read.value;
    else
      for (const { given, allowed, mend } of read.flaws)
        problems.push({
          input: flag,
          given: given ?? shown(flags[flag]),
          allowed,
          ...(mend !== undefined && { mend }),
        });
  }
  if (problems.length > 0) throw new WrongInput(problems);
  return said as Chosen<F>;
};

/** A flag that takes one of a few words. Throws `WrongInput` for any other. */
export const choiceOf = <const T extends string>(
  flags: Flags,
  name: string,
  choices: readonly T[],
): T | undefined =>
  textOf(flags, name) === undefined
    ? undefined
    : saidIn({ [name]: choice({ about: '', choices }) }, flags)[name];
