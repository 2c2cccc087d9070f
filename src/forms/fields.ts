import { figure } from '../text/figures.ts';
import { type ParsedNumber, parseAngle, parseLength, parseNumber } from '../text/units.ts';
import { HOLES_INPUT, SCALAR, YES_OR_SCALAR } from './accepts.ts';
import {
  type Field,
  type FieldFacts,
  type FieldReading,
  makeField,
  optionalField,
  type Said,
  saidOf,
} from './field.ts';
import { aboutHoles, axesExample, FOLD_AXES, type HoleAxes, holesAllowed } from './hole-axes.ts';
import { HOLE_NOTATION } from './hole-notation.ts';
import { type HoleSpec, readHoles } from './holes.ts';
import { nearest } from '../text/nearest.ts';

export { group, makeField } from './field.ts';
export type { Field, FieldFacts } from './field.ts';

/** What every field states about itself; `about` is a plain sentence. */
export interface About<D> extends Said {
  readonly default?: D;
  readonly example?: string | number;
}

/** Limits are inclusive, in mm, degrees or pieces. */
export interface Range<D> extends About<D> {
  readonly min: number;
  readonly max: number;
}

/**
 * A length of the part, `min` to `max` mm: a number of mm, or text as `parseLength` reads it. Gives
 * mm.
 */
export const length = (options: Range<number | string>): Field<number> =>
  makeField(
    rangeFacts('length', 'a length', 'mm', options, 60),
    SCALAR,
    numberReader(parseLength, options),
  );

/**
 * A length that may be left out; `otherwise` says what then takes its place. Gives mm or
 * `undefined`.
 */
export const optionalLength = ({
  otherwise,
  ...options
}: Omit<Range<never>, 'default'> & { readonly otherwise: string }): Field<number | undefined> =>
  optionalField(length(options), otherwise);

/** An angle, `min` to `max` degrees: a number, or text as `parseAngle` reads it. Gives degrees. */
export const angle = (options: Range<number | string>): Field<number> =>
  makeField(
    rangeFacts('angle', 'an angle', 'degrees', options, 90),
    SCALAR,
    numberReader(parseAngle, options),
  );

/** A whole number of things. */
export const count = (options: Range<number>): Field<number> => {
  const read = numberReader(parseNumber, options);
  return makeField(
    rangeFacts('count', 'a whole number', undefined, options, options.min),
    SCALAR,
    (given) => {
      const reading = read(given);
      return reading.ok && !Number.isInteger(reading.value)
        ? { ok: false, mend: `write ${Math.round(reading.value)}` }
        : reading;
    },
  );
};

/** A plain number; `what` names it, worded to complete "allowed: ... from 0 to 1". */
export const number = (options: Range<number> & { readonly what: string }): Field<number> =>
  makeField(
    rangeFacts('number', options.what, undefined, options, options.min),
    SCALAR,
    numberReader(parseNumber, options),
  );

/** A number that may be left out; `otherwise` says what then takes its place. Gives `undefined` then. */
export const optionalNumber = ({
  otherwise,
  ...options
}: Omit<Range<never>, 'default'> & {
  readonly what: string;
  readonly otherwise: string;
}): Field<number | undefined> => optionalField(number(options), otherwise);

/** A line of free text, 1 to `max` characters, no control characters. */
export const text = (options: About<string> & { readonly max: number }): Field<string> =>
  makeField(textFacts(options), SCALAR, textReader(options.max));

/** A short name as typed on the command line. */
export const id = (options: About<string>): Field<string> =>
  makeField(
    {
      kind: 'text',
      isFreeText: true,
      allowed: 'a short name of small letters, digits, dots and hyphens',
      ...common(options, 'bench-folder'),
    },
    SCALAR,
    (given) =>
      /^[a-z\d][a-z\d.-]{0,39}$/.test(String(given))
        ? { ok: true, value: String(given) }
        : { ok: false },
  );

/** Free text that may be left out. Gives `undefined` then. */
export const optionalText = ({
  otherwise,
  ...options
}: Omit<About<never>, 'default'> & {
  readonly max: number;
  readonly otherwise: string;
}): Field<string | undefined> => optionalField(text(options), otherwise);

/** A field that takes one of a few words; capitals make no difference. */
export const choice = <const C extends string>(
  options: About<C> & { readonly choices: readonly C[] },
): Field<C> => {
  const { choices } = options;
  const facts: FieldFacts = {
    kind: 'choice',
    allowed: `one of ${choices.join(', ')}`,
    choices,
    ...common(options, choices[0] ?? ''),
  };
  return makeField(facts, SCALAR, (given): FieldReading<C> => {
    const word = String(given).trim().toLowerCase();
    const value = choices.find((c) => c.toLowerCase() === word);
    if (value !== undefined) return { ok: true, value };
    // A single letter is near to any other, so nothing is suggested for it.
    const meant = word.length > 1 ? nearest(word, choices) : undefined;
    return meant === undefined ? { ok: false } : { ok: false, mend: `did you mean ${meant}?` };
  });
};

const SAID: ReadonlyMap<string, boolean> = new Map([
  ['true', true],
  ['yes', true],
  ['on', true],
  ['false', false],
  ['no', false],
  ['off', false],
]);

/** Yes or no. */
export const flag = (options: About<boolean>): Field<boolean> =>
  makeField<boolean | number | string, boolean>(
    { kind: 'flag', allowed: 'yes or no', ...common(options, 'yes') },
    YES_OR_SCALAR,
    (given) => {
      const value =
        typeof given === 'boolean' ? given : SAID.get(String(given).trim().toLowerCase());
      return value === undefined ? { ok: false } : { ok: true, value };
    },
  );

/** What a field of holes states about itself. */
export interface AboutHoles extends Omit<Said, 'about'> {
  /** Text such as `Holes in leg A`; the field adds what they are measured from. */
  readonly about: string;
  /**
   * The axes of a panel that stands on a fold, unless it has others; several for a field whose
   * panel is chosen by another.
   */
  readonly axes?: HoleAxes | readonly HoleAxes[];
  readonly example?: string;
}

/** Holes of one panel in the notation of `readHoles`; none unless given. */
export const holes = ({
  about,
  axes = FOLD_AXES,
  example,
  ...said
}: AboutHoles): Field<readonly HoleSpec[]> => {
  const choices = isOne(axes) ? [axes] : axes;
  const shown = example ?? `${axesExample(choices[0] ?? FOLD_AXES)}, M6; 20,45,M8`;
  return makeField(
    {
      kind: 'holes',
      list: { one: 'hole', many: 'holes' },
      axes: choices,
      allowed: holesAllowed(choices),
      notation: HOLE_NOTATION,
      default: '',
      ...saidOf({ ...said, about: aboutHoles(about, choices) }),
      example: shown,
    },
    HOLES_INPUT,
    (given) => readHoles(given, choices),
  );
};

const isOne = (axes: HoleAxes | readonly HoleAxes[]): axes is HoleAxes => 'from' in (axes[0] ?? {});

function common<D extends string | number | boolean>(
  options: About<D>,
  example: string | number,
): Said & Pick<FieldFacts, 'default' | 'example'> {
  return {
    ...saidOf(options),
    ...(options.default !== undefined && { default: options.default }),
    example: String(options.example ?? options.default ?? example),
  };
}

function rangeFacts(
  kind: FieldFacts['kind'],
  noun: string,
  unit: FieldFacts['unit'],
  options: Range<number | string>,
  example: number,
): FieldFacts {
  const { min, max } = options;
  return {
    kind,
    allowed: `${noun} from ${figure(min)} to ${figure(max)}${unit === undefined ? '' : ` ${unit}`}`,
    ...(unit !== undefined && { unit }),
    minimum: min,
    maximum: max,
    ...common(options, Math.min(Math.max(example, min), max)),
  };
}

function numberReader(
  parse: (given: string) => ParsedNumber,
  { min, max }: { readonly min: number; readonly max: number },
): (given: number | string) => FieldReading<number> {
  return (given) => {
    const parsed = typeof given === 'number' ? ({ ok: true, value: given } as const) : parse(given);
    if (!parsed.ok) return { ok: false, mend: parsed.reason };
    if (parsed.value >= min && parsed.value <= max) return parsed;
    return {
      ok: false,
      mend: parsed.value < min ? `write ${figure(min)} or more` : `write ${figure(max)} or less`,
    };
  };
}

const textFacts = (options: About<string> & { readonly max: number }): FieldFacts => ({
  kind: 'text',
  isFreeText: true,
  allowed: `1 to ${options.max} characters in one line`,
  ...common(options, 'seat-post'),
});

const textReader =
  (max: number) =>
  (given: number | string): FieldReading<string> => {
    const value = String(given).trim();
    // Some invisible characters reverse the text beside them, in a terminal and on paper.
    if (/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u.test(value))
      return { ok: false, mend: 'leave out line breaks, tabs and characters that cannot be seen' };
    if (value === '' || value.length > max) return { ok: false };
    return { ok: true, value };
  };
