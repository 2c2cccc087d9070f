import { WITH_VALUES_BY_NAME } from './accepts.ts';
import { type Field, type FieldReading, makeField, type Said, saidOf } from './field.ts';
import { shown } from './given.ts';
import { camelCase } from './input-name.ts';

/** An input of which the right part has another value than the left one. */
export interface Difference {
  /** Name of the input, in camelCase or kebab-case. */
  readonly input: string;
  /** What the right part has, as a file or a flag gives it; `undefined` leaves the input out. */
  readonly given: unknown;
}

/** More than differ between two parts that still are the two hands of one. */
const MOST = 30;

/** Inputs that say what both hands are called and which of them are made. */
const OF_BOTH: readonly string[] = ['name', 'hand', 'rightDiffers'];

/** A field for what the right part has otherwise than the left one; nothing unless given. */
export const differences = (said: Said): Field<readonly Difference[]> =>
  makeField(
    {
      kind: 'text',
      list: { one: 'difference', many: 'differences' },
      allowed:
        "inputs by their names with what the right part has for them, as top: 255 with '|' between them, or a map in a file; nothing behind the ':' leaves an input out",
      default: '',
      example: 'height: 255',
      withMeasurements: (given, put) =>
        typeof given === 'string'
          ? partsOf(given)
              .map((entry) =>
                entry.replace(
                  /^([^:]*:)([\s\S]*)$/,
                  (_, name: string, text: string) => name + put(text),
                ),
              )
              .join('|')
          : undefined,
      ...saidOf(said),
    },
    WITH_VALUES_BY_NAME,
    readDifferences,
  );

/** Reads `top: 255 | floor: 1: 0; 2: 12; 4: 20`, or a map of inputs. Each input stands there once. */
export function readDifferences(
  given: string | Readonly<Record<string, unknown>>,
): FieldReading<readonly Difference[]> {
  const entries =
    typeof given === 'string'
      ? partsOf(given).map((text) => ({ text, colon: text.indexOf(':') }))
      : [];
  const unnamed = entries.find(({ colon }) => colon < 1);
  if (unnamed !== undefined)
    return {
      ok: false,
      given: shown(unnamed.text),
      mend: "write the name of an input, ':' and what the right part has",
    };
  const found: Difference[] =
    typeof given === 'string'
      ? entries.map(({ text, colon }) => ({
          input: text.slice(0, colon).trim(),
          given: text.slice(colon + 1).trim() || undefined,
        }))
      : Object.entries(given).map(([input, value]) => ({ input, given: value ?? undefined }));
  if (found.length > MOST)
    return { ok: false, given: `${found.length} differences`, mend: `give at most ${MOST}` };
  for (const [i, { input }] of found.entries()) {
    if (OF_BOTH.includes(camelCase(input)))
      return { ok: false, given: shown(input), mend: `${input} is one for both hands` };
    if (found.findIndex((other) => camelCase(other.input) === camelCase(input)) < i)
      return { ok: false, given: shown(input), mend: `there is one for ${input} already` };
  }
  return { ok: true, value: found };
}

const partsOf = (text: string): string[] =>
  text.split(/[|\n]/).filter((part) => part.trim() !== '');

/** Differences as a text of their field; missing where one of them is more than a text can say. */
export const differencesText = (differences: readonly Difference[]): string | undefined =>
  differences.some(({ given }) => typeof given === 'object')
    ? undefined
    : differences.map(({ input, given = '' }) => `${input}: ${String(given)}`).join(' | ');

/** Inputs of the right part by itself: those of the left one but for what differs. */
export const inputsOfRight = (
  raw: Readonly<Record<string, unknown>>,
  differences: readonly Difference[],
): Record<string, unknown> => {
  const own = new Map(differences.map(({ input, given }) => [camelCase(input), given]));
  return {
    ...inputsOfLeft(
      Object.fromEntries(Object.entries(raw).filter(([name]) => !own.has(camelCase(name)))),
    ),
    ...Object.fromEntries(differences.map(({ input, given }) => [input, given])),
  };
};

/** Inputs of the left part by itself. */
export const inputsOfLeft = (raw: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(raw).filter(([name]) => camelCase(name) !== 'rightDiffers'));
