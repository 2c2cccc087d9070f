import type { Example } from '../forms/template.ts';
import { typedWords } from './terminal.ts';

/** The command line of an example of a family; it works when pasted into a shell. */
export const exampleCommand = (command: string, family: string, { inputs }: Example): string =>
  typedWords([
    `${command} ${family}`,
    ...Object.entries(inputs).map(
      ([name, value]) =>
        `--${name.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`)} ${quoted(valueText(value))}`,
    ),
  ]);

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
