import { composed, type Finding, note } from '../model/finding.ts';
import { without } from '../model/mend.ts';
import type { Field } from './field.ts';
import { shown } from './given.ts';
import { conditionText, isMet } from './when.ts';

/** An input that was given: its name, its field, what was given and what was read of that. */
export interface GivenInput {
  readonly name: string;
  readonly field: Field;
  readonly given: unknown;
  readonly value: unknown;
}

/**
 * A note on each input that was given and has no meaning beside the values of the others, by the
 * condition that its field states. An input that was given as it is anyway, when it is left out,
 * asks for nothing and is passed over: forms send every input.
 */
export const unusedInputs = (
  family: string,
  given: readonly GivenInput[],
  values: Readonly<Record<string, unknown>>,
): Finding[] =>
  given.flatMap(({ name, field, given: text, value }) => {
    const { when } = field.facts;
    if (when === undefined || isMet(when, values) || isUsual(field, value)) return [];
    const only = conditionText(when);
    const where = only === '' ? `in family ${family}` : `here, only where ${only}`;
    return [
      composed({
        ...note('input-unused', ''),
        inputs: [name],
        mends: [without(name)],
        said: { what: `${name} ${plainText(text)} has no meaning ${where}`, others: [] },
      }),
    ];
  });

/** Whether an input has the value that it has when it is left out, or cannot be left out. */
const isUsual = ({ read }: Field, value: unknown): boolean => {
  const usual = read(undefined);
  return !usual.ok || JSON.stringify(usual.value) === JSON.stringify(value);
};

/** A single word as it was given; several in quotation marks, to keep them together. */
const plainText = (given: unknown): string =>
  typeof given === 'string' && /^\S+$/.test(given) ? shown(given).slice(1, -1) : shown(given);
