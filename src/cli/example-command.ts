import { flagOf } from '../forms/input-name.ts';
import type { Example, Template } from '../forms/template.ts';
import { typedWords } from './terminal.ts';

/** The command line of an example of a family; it works when pasted into a shell. */
export const exampleCommand = (
  command: string,
  template: Pick<Template, 'family' | 'inputs'>,
  { inputs }: Example,
): string => {
  const flagsFor = ([name, value]: readonly [string, unknown]): string[] => {
    const each = template.inputs[name]?.facts.each;
    return each !== undefined && Array.isArray(value)
      ? value.map((one) => `--${each} ${quoted(String(one))}`)
      : [`--${flagOf(name)} ${quoted(valueText(value))}`];
  };
  return typedWords([`${command} ${template.family}`, ...Object.entries(inputs).flatMap(flagsFor)]);
};

/** Whether a command line can give an example: no map is among its inputs, nor in a list that has lines of its own. */
export const isTyped = ({ inputs }: Pick<Example, 'inputs'>): boolean =>
  Object.values(inputs).every((value) =>
    Array.isArray(value)
      ? value.every(
          (entry) => typeof entry !== 'object' || !('name' in entry || 'between' in entry),
        )
      : typeof value !== 'object',
  );

const valueText = (value: unknown): string =>
  Array.isArray(value)
    ? value
        .map((v: unknown) =>
          typeof v === 'object' && v !== null ? Object.values(v).map(String).join(',') : String(v),
        )
        .join(';')
    : String(value);

const quoted = (text: string): string =>
  /^[\w.,:/+-]+$/.test(text) ? text : `'${text.replaceAll("'", `'\\''`)}'`;
